/* Which blade for this cut: the same order as the printed table. A failed limit puts a blade out, else its narrowest
   margin decides, and no limit is weighed against another. */
"use strict";

(function () {
  const { digits, text, memory, INCH } = window.sawside;
  /* More than twice enough brings no further advantage; equal within rounding counts as met. As in calc/choice.py. */
  const ENOUGH = 2;
  const SAME = 1e-9;

  const mm = (x) => `${digits(x * 1e3, 3)} mm`;

  /* [ratio, words] for each limit of one blade; 1 is just enough. */
  function margins(d, blade, job) {
    const teeth = job.height / blade.tooth_pitch;
    const found = [...blade.limits, [d.cutting_height_max / job.height, `${mm(d.cutting_height_max)} under the guides for ${mm(job.height)} of work`],
      [teeth / d.teeth_least, `${digits(teeth, 3)} teeth in the work, at least ${d.teeth_least} wanted`]];
    if (job.wood === "sheet") found.push([d.teeth_most / teeth, `${digits(teeth, 3)} teeth in the work, at most ${d.teeth_most} wanted`]);
    if (job.radius > 0) {
      const turns = blade.minimum_radius;
      found.push(turns ? [job.radius / turns, `turns a radius of ${Math.ceil(turns * 1e3 - 1e-6)} mm, ${mm(job.radius)} wanted`] : [0, "its tightest curve is outside the method"]);
    }
    const width = { rip: d.straight_width, resaw: d.resaw_width }[job.cut];
    if (width) found.push([blade.blade_width / width, `${mm(blade.blade_width)} wide, ${mm(width)} wanted for a straight cut`]);
    return found.sort((a, b) => a[0] - b[0]);
  }

  const failed = (list) => list.filter(([ratio]) => ratio < 1 - SAME).length;
  const rung = (ratio) => Math.round(Math.min(ratio, ENOUGH) * 1e9);

  function before(a, b) {
    if (failed(a.margins) !== failed(b.margins)) return failed(a.margins) - failed(b.margins);
    for (let i = 0; i < a.margins.length; i += 1) {
      const gap = rung(b.margins[i][0]) - rung(a.margins[i][0]);
      if (gap) return gap;
    }
    return b.blade.blade_width - a.blade.blade_width || (a.blade.id < b.blade.id ? -1 : 1);
  }

  function line({ blade, margins: list }, place) {
    const good = failed(list) === 0;
    const item = text("li", "", { "data-blade": blade.id, "data-fits": good });
    if (place === 1 && good) item.classList.add("sw-main");
    item.append(text("b", good ? `${place}. ${blade.name}` : `Out: ${blade.name}`), `: ${list[0][1]}`);
    if (good && list.length > 1) item.append(text("span", `then: ${list[1][1]}`, { class: "sw-note" }));
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
      const job = { height: height.input.valueAsNumber * 1e-3, radius: radius.input.valueAsNumber * 1e-3, cut: cut.value, wood: wood.value };
      memory.set("choose", Object.fromEntries(fields.map((field) => [field.name, field.value])));
      height.value.textContent = `${height.input.value} mm (${digits(job.height / INCH, 3)} in)`;
      radius.value.textContent = job.radius ? `${radius.input.value} mm (${digits(job.radius / INCH, 3)} in)` : "straight";
      const order = d.blades.map((blade) => ({ blade, margins: margins(d, blade, job) })).sort(before);
      const list = text("ol", "", { class: "sw-ranks" });
      list.append(...order.map((one, i) => line(one, i + 1)));
      answer.replaceChildren(list);
    }
    form.addEventListener("input", update);
    form.addEventListener("submit", (event) => event.preventDefault());
    update();
  };
})();
