/* Worksheets for the phone at the saw: builds each from its description, reads it, keeps it on this device, prints and exports it. */
"use strict";

(function () {
  const { Refused, UNITS, number, digits, text, memory, sheets, choose, listener } = window.sawside;

  function bladeField(sheet, input, d) {
    const id = `${sheet.id}-${input.name}`;
    const row = text("p", "", { class: "sw-input" });
    const select = text("select", "", { id, name: input.name });
    d.blades.forEach((blade) => select.append(text("option", blade.name, { value: blade.id })));
    row.append(text("label", input.label, { for: id }), select);
    return { ...input, row, box: select, unit: null };
  }

  function numberField(sheet, input) {
    const id = `${sheet.id}-${input.name}`;
    const row = text("p", "", { class: "sw-input" });
    const box = text("input", "", { id, name: input.name, inputmode: "decimal", autocomplete: "off", maxlength: 12, "aria-describedby": `${id}-unit` });
    const unit = text("span", "", { id: `${id}-unit` });
    row.append(text("label", input.label, { for: id }), box, unit);
    return { ...input, row, box, unit };
  }

  /* Every field as SI; throws Refused with words about the first field that is no number, or none when one is still empty. */
  function readings(fields, system) {
    const v = {};
    let missing = "";
    fields.forEach((field) => {
      if (field.kind === "blade") { v[field.name] = field.box.value; return; }
      const read = number(field.box.value);
      if (read.wrong) field.box.setAttribute("aria-invalid", "true");
      else field.box.removeAttribute("aria-invalid");
      if (read.wrong || read.empty) missing = missing || (read.wrong ? `${field.label}: ${read.wrong}` : "empty");
      else v[field.name] = read.value * UNITS[field.kind][system][1];
    });
    const wrong = fields.find((field) => field.box.getAttribute("aria-invalid") === "true");
    if (wrong) throw new Refused(`${wrong.label}: ${number(wrong.box.value).wrong}`);
    return missing ? null : v;
  }

  function answer(sheet, d, fields, system) {
    try {
      const v = readings(fields, system);
      if (!v) return [["", "Fill in the readings."]];
      return sheet.answer(d, v, d.blades.find((blade) => blade.id === v.blade));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      return [["", `No answer: ${error.message}.`]];
    }
  }

  function csv(rows) {
    /* A cell that a spreadsheet would take for a formula gets an apostrophe; numbers and what they measure stay as they are. */
    const formula = (words) => /^[=+\-@\t\r]/.test(words) && !/^[+-]?[\d.,]+( [^=+@|!]*)?$/.test(words);
    const quote = (words) => `"${(formula(String(words)) ? "'" : "") + String(words).replace(/"/g, '""')}"`;
    return rows.map((row) => row.map(quote).join(",")).join("\r\n") + "\r\n";
  }

  function buttons(sheet, state) {
    const row = text("p", "", { class: "sw-buttons" });
    const print = text("button", "Print filled in", { type: "button" });
    print.addEventListener("click", () => window.print());
    const save = text("button", "Save as CSV", { type: "button", "data-csv": sheet.id });
    save.addEventListener("click", () => {
      const rows = [["when", new Date().toISOString()], ["saw", document.querySelector("h1").textContent], ["worksheet", sheet.title], ...state()];
      const link = text("a", "", { download: `${sheet.id}.csv` });
      link.href = URL.createObjectURL(new Blob([csv(rows)], { type: "text/csv" }));
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    });
    row.append(print, save);
    return row;
  }

  function build(sheet, d, place) {
    const section = text("section", "", { class: "sw-worksheet", "aria-labelledby": `${sheet.id}-title`, id: sheet.id });
    const form = text("form", "", { novalidate: "" });
    const fields = sheet.inputs(d).map((input) => (input.kind === "blade" ? bladeField(sheet, input, d) : numberField(sheet, input)));
    const result = text("div", "", { class: "sw-answer", "aria-live": "polite", id: `${sheet.id}-answer` });
    let state = [];
    let system = "metric";

    function update() {
      memory.set(sheet.id, { system, ...Object.fromEntries(fields.map((field) => [field.name, field.box.value])) });
      const lines = answer(sheet, d, fields, system);
      state = [...fields.map((field) => [field.label, `${field.box.value} ${field.unit ? field.unit.textContent : ""}`.trim()]), ...lines];
      result.replaceChildren(...lines.map(([name, words], i) => {
        const line = text("p", "", i ? {} : { class: "sw-main" });
        if (name) line.append(text("b", `${name}: `));
        line.append(words);
        return line;
      }));
    }

    /* Change the units of what stands in the fields; words that are no number stay as they are. */
    function change(next) {
      fields.filter((field) => field.unit).forEach((field) => {
        const read = number(field.box.value);
        if (read.value !== undefined) field.box.value = digits((read.value * UNITS[field.kind][system][1]) / UNITS[field.kind][next][1], 6);
        field.unit.textContent = UNITS[field.kind][next][0];
      });
      system = next;
      update();
    }

    function start() {
      const kept = memory.get(sheet.id);
      system = kept.system === "inch" ? "inch" : "metric";
      fields.forEach((field) => {
        if (!field.unit) field.box.value = [kept[field.name], d.fitted, d.blades[0].id].find((id) => d.blades.some((blade) => blade.id === id));
        else {
          field.box.value = kept[field.name] ?? (field.start ? digits(field.start / UNITS[field.kind][system][1], 6) : "");
          field.unit.textContent = UNITS[field.kind][system][0];
        }
      });
    }

    form.append(...fields.map((field) => field.row));
    form.addEventListener("input", update);
    form.addEventListener("submit", (event) => event.preventDefault());
    section.append(text("h2", sheet.title, { id: `${sheet.id}-title` }), text("p", sheet.words), form);
    if (sheet.listen) section.append(listener(sheet, fields.find((field) => field.name === sheet.listen).box, update));
    section.append(result, buttons(sheet, () => state));
    place.append(section);
    start();
    return { change, again: () => { const now = system; start(); change(now); } };
  }

  /* Units for the whole page, a list of the worksheets, and a way to forget. */
  function tools(place, built) {
    const bar = text("div", "", { class: "sw-tool sw-buttons" });
    const units = text("select", "", { id: "sw-units" });
    units.append(text("option", "mm, N, MPa", { value: "metric" }), text("option", "in, lbf, psi", { value: "inch" }));
    units.value = memory.get("page").system === "inch" ? "inch" : "metric";
    const apply = () => { memory.set("page", { system: units.value }); built.forEach((one) => one.change(units.value)); };
    units.addEventListener("change", apply);
    const forget = text("button", "Forget all readings", { type: "button", id: "sw-forget" });
    forget.addEventListener("click", () => { memory.forget(); built.forEach((one) => one.again()); apply(); });
    bar.append(text("label", "Units", { for: "sw-units" }), units, forget);
    place.prepend(bar);
    apply();
  }

  function contents(place) {
    const nav = text("nav", "", { class: "sw-list", "aria-label": "Worksheets on this page" });
    const list = text("ul");
    place.querySelectorAll(".sw-worksheet").forEach((section) => {
      const item = text("li");
      item.append(text("a", section.querySelector("h2").textContent, { href: `#${section.id}` }));
      list.append(item);
    });
    nav.append(list);
    place.prepend(nav);
  }

  const source = document.getElementById("sw-data");
  const place = document.getElementById("sw-worksheets");
  const d = JSON.parse(source.textContent);
  if (!d.blades.length) {
    place.append(text("p", "No blade on the rack fits this saw, so there is nothing to work out here."));
    return;
  }
  if (d.cutting_height_max) choose(d, place);
  const built = sheets.map((sheet) => build(sheet, d, place));
  tools(place, built);
  contents(place);
  if (location.hash) document.getElementById(location.hash.slice(1))?.scrollIntoView();
})();
