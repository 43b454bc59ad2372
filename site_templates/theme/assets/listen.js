/* Listening to a plucked strand. The sound stays in the page: it is neither kept nor sent. */
"use strict";

(function () {
  const { formulas: f, text } = window.sawside;
  const LOWEST = 45;
  const HIGHEST = 400;
  /* First look at every fourth sample: that finds the tone; then measure it on all of them. */
  const COARSE = 4;
  /* Sound less like itself than this is noise, or a tone too deep in noise to be measured. */
  const CLEAR = 0.8;

  /* How alike a piece of sound is to itself so many samples later, from -1 to 1. */
  function likeness(samples, lag, length) {
    let product = 0;
    let one = 0;
    let two = 0;
    for (let i = 0; i < length; i += 1) {
      const a = samples[i];
      const b = samples[i + lag];
      product += a * b;
      one += a * a;
      two += b * b;
    }
    return product / (Math.sqrt(one * two) || 1);
  }

  function thinned(samples) {
    const made = new Float32Array(Math.floor(samples.length / COARSE));
    for (let i = 0; i < made.length; i += 1) {
      for (let j = 0; j < COARSE; j += 1) made[i] += samples[i * COARSE + j] / COARSE;
    }
    return made;
  }

  /* The shortest lag at which the sound is about as like itself as it ever is: one whole swing of the strand. */
  function swing(samples, rate) {
    const longest = Math.ceil(rate / LOWEST);
    const length = samples.length - longest - 1;
    const values = [];
    for (let lag = Math.floor(rate / HIGHEST) - 1; lag <= longest + 1; lag += 1) values[lag] = likeness(samples, lag, length);
    const best = values.reduce((most, value) => Math.max(most, value), 0);
    if (best < CLEAR) return null;
    const found = values.findIndex((value, lag) => value >= 0.92 * best && value >= values[lag - 1] && value >= values[lag + 1]);
    return found > 0 ? found : null;
  }

  /* The lowest tone in a piece of sound by autocorrelation with a parabola through the peak.
     samples: Float32Array; rate: samples per second. Gives Hz, or null when there is no clear tone from 45 to 400 Hz. */
  function heard(samples, rate) {
    const mean = samples.reduce((a, b) => a + b, 0) / samples.length;
    const level = samples.map((x) => x - mean);
    const coarse = swing(thinned(level), rate / COARSE);
    if (coarse === null) return null;
    const length = level.length - (coarse + 2) * COARSE - 1;
    const values = [];
    for (let lag = (coarse - 1) * COARSE - 1; lag <= (coarse + 1) * COARSE + 1; lag += 1) values[lag] = likeness(level, lag, length);
    let peak = (coarse - 1) * COARSE;
    for (let lag = peak; lag <= (coarse + 1) * COARSE; lag += 1) if (values[lag] > values[peak]) peak = lag;
    const [a, b, c] = [values[peak - 1], values[peak], values[peak + 1]];
    const bend = a - 2 * b + c;
    return rate / (peak + (bend < 0 ? (0.5 * (a - c)) / bend : 0));
  }

  const QUIET = 0.002;
  const KEEP = 7;
  const FEWEST = 3;
  /* So many looks without a tone, and the pluck is over: the next one starts afresh. */
  const OVER = 3;
  /* This much louder than the look before is a new pluck. */
  const AGAIN = 2;

  const middle = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

  /* Collects the tones of one pluck and gives their middle; the loudest looks count, because the end of a pluck is mostly noise. */
  function ear() {
    let looks = [];
    let without = 0;
    let before = 0;
    return (samples, rate) => {
      const loud = Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length);
      const again = loud > AGAIN * before;
      before = loud;
      const tone = loud > QUIET ? heard(samples, rate) : null;
      without = tone === null ? without + 1 : 0;
      if (without >= OVER || again) looks = [];
      if (tone === null) return null;
      looks = [...looks, { loud, tone }].sort((a, b) => b.loud - a.loud).slice(0, KEEP);
      return looks.length < FEWEST ? null : middle(looks.map((look) => look.tone));
    };
  }

  /* Listen until stopped; `heard` gets the middle of the tones of the pluck that sounds. */
  async function listen(heard) {
    const stream = await navigator.mediaDevices.getUserMedia({ audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false } });
    const context = new AudioContext();
    const analyser = context.createAnalyser();
    analyser.fftSize = 8192;
    context.createMediaStreamSource(stream).connect(analyser);
    const samples = new Float32Array(analyser.fftSize);
    const take = ear();
    const timer = setInterval(() => {
      analyser.getFloatTimeDomainData(samples);
      const tone = take(samples, context.sampleRate);
      if (tone !== null) heard(tone);
    }, 120);
    return () => {
      clearInterval(timer);
      stream.getTracks().forEach((track) => track.stop());
      context.close();
    };
  }

  /* A button that listens, where the browser allows the microphone: from https or localhost. Elsewhere words that say so. */
  window.sawside.heard = heard;
  window.sawside.listener = function listener(sheet, field, changed) {
    const row = text("p", "", { class: "sw-buttons" });
    const say = text("span", "", { "aria-live": "polite", id: `${sheet.id}-heard` });
    if (location.protocol === "file:" || !window.isSecureContext || !navigator.mediaDevices) {
      say.textContent = "This page cannot listen here: the microphone works only when the site is opened from https or localhost, not as a file. Type the tone in.";
      row.append(say);
      return row;
    }
    const button = text("button", "Listen", { type: "button", id: `${sheet.id}-listen`, "aria-pressed": "false" });
    let stop = null;
    const turn = (on) => {
      button.textContent = on ? "Stop listening" : "Listen";
      button.setAttribute("aria-pressed", String(on));
    };
    button.addEventListener("click", async () => {
      if (stop) { stop(); stop = null; turn(false); return; }
      try {
        say.textContent = "Listening. Pluck the strand.";
        stop = await listen((hertz) => {
          say.textContent = `heard ${hertz.toFixed(1)} Hz, ${f.pluck_note(hertz)}`;
          field.value = hertz.toFixed(2);
          changed();
        });
        turn(true);
      } catch (error) {
        say.textContent = `The microphone could not be used (${error.name}). Type the tone in.`;
      }
    });
    row.append(button, say);
    return row;
  };
})();
