/* Reading what people type and printing what was computed, in millimetres and newtons or in inches and pounds. */
"use strict";

(function () {
  const INCH = 0.0254;
  const POUND = 4.4482216152605;
  const PSI = 6894.757293168361;
  const DEGREE = Math.PI / 180;

  /* kind of number -> unit and size of the unit in SI, for millimetre and for inch people */
  const UNITS = {
    length: { metric: ["mm", 1e-3], inch: ["in", INCH] },
    force: { metric: ["N", 1], inch: ["lbf", POUND] },
    stress: { metric: ["MPa", 1e6], inch: ["psi", PSI] },
    angle: { metric: ["deg", DEGREE], inch: ["deg", DEGREE] },
    tone: { metric: ["Hz", 1], inch: ["Hz", 1] },
    mark: { metric: ["", 1], inch: ["", 1] },
  };

  const WHOLE_AND_PART = /^(?:(\d+)\s+)?(\d+)\/([1-9]\d*)$/;
  const DECIMAL = /^[-\u2212]?(?:\d+[.,]?\d*|[.,]\d+)$/;
  const TWO_MEANINGS = /^[-\u2212]?[1-9]\d{0,2},\d{3}$/;

  /* Return { value } or { wrong: words } for what stands in a field; an empty field is { empty: true }. */
  function number(typed) {
    const words = typed.trim();
    if (!words) return { empty: true };
    const part = WHOLE_AND_PART.exec(words);
    if (part) return { value: Number(part[1] || 0) + Number(part[2]) / Number(part[3]) };
    if (TWO_MEANINGS.test(words)) return { wrong: `\u201c${words}\u201d can be read in two ways: write ${words.replace(",", "")} or ${words.replace(",", ".")}` };
    if (!DECIMAL.test(words)) return { wrong: `\u201c${words}\u201d is no number: write it like 12.5 or 3 1/8, without the unit` };
    return { value: Number(words.replace(",", ".").replace("\u2212", "-")) };
  }

  const digits = (x, n) => Number(x.toPrecision(n)).toString();
  const places = (x, n) => (Math.abs(x) < 0.5 * 10 ** -n ? 0 : x).toFixed(n);
  const show = {
    angle: (x) => `${places(x / DEGREE, 3)} deg`,
    doubt: (x) => `\u00b1 ${places((1.6449 * x) / DEGREE, 3)} deg (9 times in 10)`,
    stress: (x) => `${places(x / 1e6, 0)} MPa (${Math.round(x / PSI / 100) * 100} psi)`,
    force: (x) => `${digits(x, 3)} N (${digits(x / POUND, 3)} lbf)`,
    length: (x) => `${places(x * 1e3, 2)} mm (${places(x / INCH, 4)} in)`,
  };

  /* How the shop prints a kind of number: kinds as in the page's data, rounding to the nearest, up or down; see units/printing.py. */
  function printer(kinds, words, denominator) {
    const NOISE = 1e-9;
    const steps = (x, rounding) => {
      const half = Math.round(x * 2) / 2;
      const n = Math.abs(x - half) <= Math.max(1e-12, NOISE * Math.abs(x)) ? half : x;
      if (rounding === "down") return Math.floor(n);
      if (rounding === "up") return Math.ceil(n);
      return Math.sign(n) * Math.floor(Math.abs(n) + 0.5);
    };
    const unit = (number, scale) => `${number}${scale.unit && scale.unit !== "\u00b0" ? " " : ""}${number === "1" && scale.one ? scale.one : scale.unit}`;
    const ruler = (n) => {
      let [over, under] = [n % denominator, denominator];
      while (over && over % 2 === 0) [over, under] = [over / 2, under / 2];
      return [Math.floor(n / denominator) || "", over ? `${over}/${under}` : ""].filter(Boolean).join(" ") || "0";
    };
    function text(value, kind, rounding = "nearest") {
      const scale = kinds[kind].find((one) => one.below === null || Math.abs(value / one.size) < one.below);
      const number = value / scale.size;
      if (!scale.step) {
        const n = steps(number * denominator, rounding);
        const exact = Math.abs((n / denominator) * scale.size - value) <= 1e-9;
        return `${exact || rounding !== "nearest" ? "" : "about "}${unit(ruler(n), scale)}`;
      }
      const figures = scale.figures && number ? 10 ** (Math.floor(Math.log10(Math.abs(number) * (1 + NOISE))) - scale.figures + 1) : 0;
      const step = Math.max(scale.step, figures);
      const n = steps(number / step, rounding);
      if (!n && number && rounding === "nearest") return `under ${unit(Number(step.toPrecision(6)).toString(), scale)}`;
      return unit(Number((n * step).toPrecision(12)).toString(), scale);
    }
    return { text, word: (word) => words[word] ?? word };
  }

  /* An element with words in it: never markup. */
  function text(tag, words = "", attributes = {}) {
    const element = document.createElement(tag);
    element.textContent = words;
    Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, value));
    return element;
  }

  /* Readings stay in this browser, each page its own; in a private window nothing is kept. */
  const prefix = `sawside:${location.pathname}:`;
  const memory = {
    get(key) { try { return JSON.parse(localStorage.getItem(prefix + key)) || {}; } catch { return {}; } },
    set(key, value) { try { localStorage.setItem(prefix + key, JSON.stringify(value)); } catch { /* not allowed here */ } },
    forget() {
      try {
        Object.keys(localStorage).filter((key) => key.startsWith(prefix)).forEach((key) => localStorage.removeItem(key));
      } catch { /* not allowed here */ }
    },
  };

  Object.assign(window.sawside, { INCH, DEGREE, UNITS, number, digits, places, show, printer, text, memory });
})();
