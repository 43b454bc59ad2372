/* Search from disk: browsers refuse real workers for pages opened as files.
   There, run the worker's script in a hidden frame of this page and pass messages through. */
(function () {
  "use strict";
  if (location.protocol !== "file:" || !window.Worker) return;

  class FrameWorker extends EventTarget {
    constructor(relative) {
      super();
      const address = new URL(relative, document.baseURI).href;
      this.onmessage = null;
      this.waiting = [];
      const frame = document.createElement("iframe");
      frame.hidden = true;
      frame.title = "search worker";
      document.body.appendChild(frame);
      const inner = frame.contentWindow;
      const load = (src) => new Promise((done, failed) => {
        const script = inner.document.createElement("script");
        script.src = new URL(src, address).href;
        script.onload = done;
        script.onerror = failed;
        inner.document.head.appendChild(script);
      });
      inner.importScripts = (...list) => list.reduce((before, src) => before.then(() => load(src)), Promise.resolve());
      inner.postMessage = (data) => this.receive(data);
      this.inner = inner;
      load(address).then(() => {
        this.ready = true;
        this.waiting.splice(0).forEach((data) => this.deliver(data));
      });
    }
    receive(data) {
      const event = new MessageEvent("message", { data });
      if (this.onmessage) this.onmessage(event);
      this.dispatchEvent(event);
    }
    deliver(data) {
      this.inner.dispatchEvent(new this.inner.MessageEvent("message", { data }));
    }
    postMessage(data) {
      if (this.ready) this.deliver(data);
      else this.waiting.push(data);
    }
    terminate() {
      this.inner.frameElement.remove();
    }
  }
  window.Worker = FrameWorker;
})();
