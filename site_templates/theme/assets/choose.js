/* Which blade for this cut: the order, limits, grades and words are those of the printed table, translated from the same functions. */
"use strict";

(function () {
  const { formulas: f, digits, text, printer, memory, INCH } = window.sawside;
  const MATERIALS = { solid: "softwood", sheet: "plywood" };

  /* What gives a field or value by its name: of the job, of the blade, of the saw, or worked out for the job. */
  function values(d, blade, job) {
    return function value(name) {
      const from = [job, blade, d].find((one) => name in one);
      if (from) return from[name];
      if (!(name in d.derived)) throw new Error(`the page is not given ${name}`);
      const [called, names] = d.derived[name];
      return f[called](...names.map(value));
    };
  }

  /* All blades for a job, best first, each with its place, whether it keeps to all limits, and why in words. */
  function ranked(d, job) {
    const print = printer(d.kinds, d.words, d.denominator);
    const asked = new Map(d.blades.map((blade) => [blade.id, values(d, blade, job)]));
    const fits = { fits: true, reasons: [] };
    const each = (made) => new Map([...asked].map(([id, value]) => [id, new Map([["job", made(value)]])]));
    const [limits, grades] = [each((value) => f.margins(value, fits, print)), each((value) => f.grades(value, print))];
    const widths = new Map(d.blades.map((blade) => [blade.id, blade.blade_width]));
    return f.rank(limits, grades, widths).map((one) => {
      const good = one.jobs_failed.length === 0;
      const words = good ? f.reason(asked.get(one.blade), print) : one.binding.words;
      return { blade: d.blades.find((blade) => blade.id === one.blade), place: one.place, good, words };
    });
  }

  function line({ blade, place, good, words }) {
    const item = text("li", "", { "data-blade": blade.id, "data-fits": good, "data-place": place });
    if (place === 1 && good) item.classList.add("sw-main");
    item.append(text("b", good ? `${place}. ${blade.name}` : `Out: ${blade.name}`), `: ${words}`);
    return item;
  }

  function slider(form, name, label, low, high, start) {
    const row = text("p", "", { class: "sw-input" });
    const input = text("input", "", { type: "range", id: `choose-${name}`, name, min: low, max: high, step: 1 });
    input.value = start;
    const value = text("output", "", { for: input.id });
    row.append(text("label", label, { for: input.id }), input, value);
    form.append(row);
    return { input, value };
  }

  function choice(form, name, label, options) {
    const row = text("p", "", { class: "sw-input" });
    const select = text("select", "", { id: `choose-${name}`, name });
    options.forEach(([value, words]) => select.append(text("option", words, { value })));
    row.append(text("label", label, { for: select.id }), select);
    form.append(row);
    return select;
  }

  window.sawside.choose = function choose(d, place) {
    const section = text("section", "", { class: "sw-worksheet", "aria-labelledby": "choose-title", id: "choose" });
    const form = text("form");
    section.append(text("h2", "Which blade for this cut", { id: "choose-title" }), form);
    const highest = Math.floor(d.cutting_height_max * 1e3);
    const height = slider(form, "height", "Thickness of the work", 3, highest, Math.min(25, highest));
    const radius = slider(form, "radius", "Tightest curve, 0 for a straight cut", 0, 300, 0);
    const cut = choice(form, "cut", "Cut", [["rip", "along the grain"], ["crosscut", "across the grain"], ["curve", "curve"], ["resaw", "re-saw: a board on its edge"]]);
    const wood = choice(form, "wood", "Material", [["solid", "solid wood"], ["sheet", "plywood, sheet, plastic"]]);
    const fields = [height.input, radius.input, cut, wood];
    const kept = memory.get("choose");
    fields.forEach((field) => { if (kept[field.name]) field.value = kept[field.name]; });
    fields.forEach((field) => { if (!field.value) field.selectedIndex = 0; });
    const answer = text("div", "", { class: "sw-answer", "aria-live": "polite" });
    section.append(answer);
    place.append(section);

    function update() {
      const [tall, curve] = [height.input.valueAsNumber * 1e-3, radius.input.valueAsNumber * 1e-3];
      const job = { work_height_min: tall, work_height_max: tall, cut_radius: curve || null, cut: cut.value, material: MATERIALS[wood.value], feed_wanted: null, feed_by_gullet: null };
      memory.set("choose", Object.fromEntries(fields.map((field) => [field.name, field.value])));
      height.value.textContent = `${height.input.value} mm (${digits(tall / INCH, 3)} in)`;
      radius.value.textContent = curve ? `${radius.input.value} mm (${digits(curve / INCH, 3)} in)` : "straight";
      const list = text("ol", "", { class: "sw-ranks" });
      list.append(...ranked(d, job).map(line));
      answer.replaceChildren(list);
    }
    form.addEventListener("input", update);
    form.addEventListener("submit", (event) => event.preventDefault());
    update();
  };
})();
