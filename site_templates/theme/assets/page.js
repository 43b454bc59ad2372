/* Every page: search without a server, and what is answered to the code on a print.
   The list of places to find is loaded when the field is first used; it is a script so that it loads from a file, too. */
"use strict";

(function () {
  const form = document.querySelector(".sw-search");
  const box = document.getElementById("sw-found");
  const MOST = 12;
  /* From this score on a place holds the phrase as it was typed; then places with its words scattered about only disturb. */
  const PHRASE = 200;

  /* One space before and after every word; marks that people write differently become the same. */
  function plain(words) {
    const flat = words.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
    const apart = flat.replace(/\u00d7/g, "x").replace(/\u2044/g, "/").replace(/(\d)\s*x\s*(?=\d)/g, "$1 x ").replace(/(\d)(?=[a-z])/g, "$1 ");
    return ` ${apart.replace(/[^a-z0-9./]+/g, " ").replace(/\.( |$)/g, " ").trim()} `;
  }

  /* How well a place answers: the whole phrase before scattered words, a heading before the text,
     the opening of a page before its parts, an early word before a late one. */
  function score(place, phrase, words) {
    const start = phrase.trimEnd();
    if (place.heading.includes(phrase)) return 400;
    if (place.heading.includes(start)) return 300;
    const at = place.words.indexOf(phrase);
    const opening = place.title === place.page ? 20 : 0;
    if (at >= 0) return 250 + opening - at / 1e4;
    if (place.words.includes(start)) return 200;
    const everywhere = place.heading + place.words + place.more;
    if (!words.every((word) => everywhere.includes(` ${word}`))) return 0;
    return words.every((word) => place.heading.includes(` ${word}`)) ? 150 : 100;
  }

  function find(places, query) {
    const phrase = plain(query).replace(/(\d) (?:inch|inches|in) /g, "$1 ");  // sizes stand there as the trade says them: 1/2 x 6
    const words = phrase.trim().split(" ").filter((word, i, all) => word.length > 1 || /\d/.test(word) || all.length === 1);
    if (!words.length) return [];
    const found = places.map((place) => ({ place, score: score(place, phrase, words) })).filter((one) => one.score > 0)
      .sort((a, b) => b.score - a.score);
    const whole = found.filter((one) => one.score >= PHRASE);
    return (whole.length ? whole : found).map((one) => one.place);
  }

  function extract(place, query) {
    const words = query.trim().toLowerCase();
    const at = Math.max(place.text.toLowerCase().indexOf(words), 0);
    const from = at < 60 ? 0 : place.text.indexOf(" ", at - 50) + 1;
    return `${from ? "\u2026 " : ""}${place.text.slice(from, from + 140)}${from + 140 < place.text.length ? " \u2026" : ""}`;
  }

  function line(place, query) {
    const item = document.createElement("li");
    const link = document.createElement("a");
    link.href = `${form.dataset.root}/${place.url}`;
    const title = document.createElement("b");
    title.textContent = place.title;
    const where = document.createElement("span");
    where.textContent = place.page === place.title ? extract(place, query) : `${place.page}: ${extract(place, query)}`;
    link.append(title, where);
    item.append(link);
    return item;
  }

  function show(places, query) {
    const found = find(places, query);
    box.hidden = !query.trim();
    box.querySelector("p").textContent = !query.trim() ? "" : found.length ? `${found.length} place${found.length === 1 ? "" : "s"} found`
      : `Nothing found for \u201c${query.trim()}\u201d`;
    box.querySelector("ol").replaceChildren(...found.slice(0, MOST).map((place) => line(place, query)));
  }

  function load(src) {
    return new Promise((done, failed) => {
      const script = document.createElement("script");
      script.src = src;
      script.onload = () => done(window.sawsidePlaces.map(([url, page, title, text, more]) => ({ url, page, title, text, heading: plain(title), words: plain(text), more: plain(more) })));
      script.onerror = () => failed(new Error("no index"));
      document.head.append(script);
    });
  }

  function search() {
    const field = form.querySelector("input");
    let places = null;
    const update = async () => {
      try {
        places = places || load(form.dataset.index);
        show(await places, field.value);
      } catch {
        box.hidden = false;
        box.querySelector("p").textContent = "The search list is missing beside these pages; use the links instead.";
      }
    };
    const clear = () => { field.value = ""; box.hidden = true; };
    form.classList.add("sw-ready");
    field.addEventListener("input", update);
    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      await update();
      box.querySelector("a")?.focus();
    });
    [form, box].forEach((part) => part.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      clear();
      field.focus();
    }));
    box.addEventListener("click", (event) => { if (event.target.closest("a")) clear(); });
  }

  /* The code on a print leads to #print-KIND-MARK. An answer that is on the page is shown by the style sheet alone; for a print that
     nobody listed there is none, and the one for unknown prints takes its place. */
  function answerPrint() {
    const unknown = document.getElementById("print-unknown");
    const asked = /^#print-[a-z-]+-([0-9A-Za-z]{4})([0-9A-Za-z]{4})$/.exec(window.location.hash);
    if (!unknown) return;
    const shown = asked && document.getElementById(window.location.hash.slice(1));
    unknown.classList.toggle("sw-asked", Boolean(asked) && !shown);
    if (asked && !shown) unknown.querySelector("b").textContent = ` (${asked[1]} ${asked[2]})`;
    if (asked) (shown || unknown).focus();
  }

  /* What is folded opens for whoever was sent there, and on paper. */
  function unfold() {
    const asked = window.location.hash && document.getElementById(decodeURIComponent(window.location.hash.slice(1)));
    const fold = asked && asked.closest("details");
    if (fold && !fold.open) { fold.open = true; asked.scrollIntoView(); }
  }
  const folds = [...document.querySelectorAll("details")];
  window.addEventListener("beforeprint", () => folds.forEach((one) => { one.dataset.was = one.open; one.open = true; }));
  window.addEventListener("afterprint", () => folds.forEach((one) => { one.open = one.dataset.was === "true"; }));

  if (form) search();
  unfold();
  window.addEventListener("hashchange", unfold);
  answerPrint();
  window.addEventListener("hashchange", answerPrint);
})();
