/* The pages for the work at the saw: fill them for the blade that goes on, go to a stage, show more or less of it, print it.
   Everything a page says for another blade is in the page; nothing is fetched, so it works from a folder, too. */
"use strict";

(function () {
  const VIEW = "sawside:view";
  const picker = document.getElementById("sw-blade");
  const stages = document.getElementById("sw-stage");
  const query = new URLSearchParams(window.location.search);

  const kept = {
    get(key) { try { return localStorage.getItem(key); } catch { return null; } },
    set(key, value) { try { localStorage.setItem(key, value); } catch { /* not allowed here */ } },
  };

  /* Each region as it came, by the names of its parts. */
  const regions = [...document.querySelectorAll("[data-region]")].map((place) => ({
    place,
    order: [...place.querySelectorAll(":scope > [data-part]")].map((part) => part.dataset.part),
    parts: new Map([...place.querySelectorAll(":scope > [data-part]")].map((part) => [part.dataset.part, part])),
  }));

  function fill(blade) {
    regions.forEach(({ place, order, parts }) => {
      const found = document.querySelector(`template[data-for="${place.dataset.region}"][data-blade="${CSS.escape(blade)}"]`);
      const changed = new Map(found ? [...found.content.cloneNode(true).children].map((part) => [part.dataset.part, part]) : []);
      const names = found && blade !== picker.dataset.shown ? found.dataset.order.split(" ").filter(Boolean) : order;
      place.replaceChildren(...names.map((name) => (blade === picker.dataset.shown ? parts.get(name) : changed.get(name) || parts.get(name))).filter(Boolean));
    });
    document.querySelectorAll("[data-blade-name]").forEach((place) => { place.textContent = blade || "no blade chosen"; });
    document.querySelectorAll("[data-card]").forEach((link) => { link.href = `${link.dataset.card}${blade && blade !== picker.dataset.shown ? `-${blade}` : ""}.pdf`; });
    keep(blade);
  }

  /* Links to the other pages of the work carry the blade along. */
  function keep(blade) {
    const carried = blade && blade !== picker.dataset.shown ? `?blade=${encodeURIComponent(blade)}` : "";
    document.querySelectorAll("a[data-keep]").forEach((link) => {
      const [path, hash] = link.getAttribute("href").split("#");
      link.setAttribute("href", `${path.split("?")[0]}${carried}${hash ? `#${hash}` : ""}`);
    });
    if (stages) [...stages.options].forEach((one) => { one.value = one.value.split("?")[0] + carried; });
  }

  function choose() {
    if (!picker) return;
    picker.closest("[hidden]").hidden = false;
    const asked = query.get("blade");
    const known = [...picker.options].some((one) => one.value === asked);
    if (known) picker.value = asked;
    if (known && asked !== picker.dataset.shown) fill(asked);
    picker.addEventListener("change", () => {
      fill(picker.value);
      const address = new URL(window.location.href);
      if (picker.value === picker.dataset.shown) address.searchParams.delete("blade");
      else address.searchParams.set("blade", picker.value);
      try { window.history.replaceState(null, "", address); } catch { /* some browsers forbid it for files */ }
    });
  }

  function go() {
    if (!stages) return;
    stages.closest("[hidden]").hidden = false;
    stages.addEventListener("change", () => { window.location.href = stages.value; });
  }

  function view() {
    const buttons = [...document.querySelectorAll("[data-view]")];
    if (!buttons.length) return;
    buttons[0].closest("[hidden]").hidden = false;
    const show = (much) => {
      document.body.classList.toggle("sw-brief", much === "brief");
      buttons.forEach((button) => button.setAttribute("aria-pressed", String(button.dataset.view === much)));
    };
    show(kept.get(VIEW) === "brief" ? "brief" : "full");
    buttons.forEach((button) => button.addEventListener("click", () => { kept.set(VIEW, button.dataset.view); show(button.dataset.view); }));
    document.querySelector("[data-print]").addEventListener("click", () => window.print());
  }

  choose();
  go();
  view();
  if (window.location.hash) document.getElementById(window.location.hash.slice(1))?.scrollIntoView();
})();
