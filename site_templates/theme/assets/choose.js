/* Which blade for this cut: the same order as the printed table. A failed limit puts a blade out; the others are graded, and
   the one whose worst grades are best goes first, of equals the wider. Nothing is weighed against anything else. */
"use strict";

(function () {
  const { digits, text, memory, INCH } = window.sawside;
  /* As in calc/margins.py, calc/tables.py and the family's margins.py: equal within rounding; two nominal sizes that are one;
     teeth that are slow in solid wood; how many times its tightest curve goes without forcing. */
  const SAME = 1e-9;
  const SAME_SIZE = 0.03;
  const SLOW_TEETH = 12;
  const EASY_TURN = 1.3;
  const [GOOD, MIDDLING, POOR] = [0, 1, 2];

  const mm = (x) => `${digits(x * 1e3, 3)} mm`;
  const nominal = (ratio) => (ratio * (1 + SAME_SIZE) >= 1 ? Math.max(ratio, 1) : ratio);
  const along = (cut) => cut === "rip" || cut === "resaw";

  /* [ratio, words] for each limit of one blade; 1 is just enough. */
  function margins(d, blade, job) {
    const teeth = job.height / blade.tooth_pitch;
    const found = [...blade.limits, [d.cutting_height_max / job.height, `${mm(d.cutting_height_max)} under the guides for ${mm(job.height)} of work`],
      [nominal(teeth / d.teeth_least), `${digits(teeth, 2)} teeth in the work, at least ${d.teeth_least} wanted`]];
    if (job.wood === "sheet") found.push([nominal(d.teeth_most / teeth), `${digits(teeth, 2)} teeth in the work, at most ${d.teeth_most} wanted`]);
    if (job.radius > 0) {
      const turns = blade.minimum_radius;
      found.push(turns ? [job.radius / turns, `turns a radius of ${Math.ceil(turns * 1e3 - 1e-6)} mm, ${mm(job.radius)} wanted`] : [0, "its tightest curve is outside the method"]);
    }
    const width = { rip: d.straight_width, resaw: d.resaw_width }[job.cut];
    if (width) found.push([nominal(blade.blade_width / width), `${mm(blade.blade_width)} wide, ${mm(width)} wanted for a straight cut`]);
    return found.sort((a, b) => a[0] - b[0]);
  }

  function fine(d, teeth) {
    if (teeth > d.teeth_most * (1 + SAME_SIZE)) return [POOR, `too fine: ${digits(teeth, 2)} teeth in the work, more than ${d.teeth_most} clog and heat`];
    if (teeth > SLOW_TEETH * (1 + SAME_SIZE)) return [MIDDLING, `fine for this work: ${digits(teeth, 2)} teeth in it`];
    return [GOOD, `${digits(teeth, 2)} teeth in the work`];
  }

  function form(blade, cut) {
    const deep = ["hook", "skip"].includes(blade.tooth_form);
    if (along(cut)) return deep ? [GOOD, ""] : [MIDDLING, `${blade.tooth_form} teeth are slower here than hook or skip`];
    return cut === "crosscut" && blade.tooth_form === "hook" ? [MIDDLING, "hook teeth tear across the grain"] : [GOOD, ""];
  }

  function turn(blade, radius) {
    const easy = `goes easily from ${Math.ceil(blade.comfortable_radius * 1e3 - 1e-6)} mm`;
    if (radius >= blade.comfortable_radius / (1 + SAME_SIZE)) return [GOOD, easy];
    return blade.minimum_radius && radius >= EASY_TURN * blade.minimum_radius ? [MIDDLING, easy] : [POOR, "only just turns this curve"];
  }

  /* [grade, words] in each respect, the worst first. */
  function grades(d, blade, job) {
    const found = [...blade.grades];
    if (job.wood === "solid") found.push(fine(d, job.height / blade.tooth_pitch), form(blade, job.cut));
    if (job.radius > 0) found.push(turn(blade, job.radius));
    return found.sort((a, b) => b[0] - a[0]);
  }

  const failed = (list) => list.filter(([ratio]) => ratio < 1 - SAME).length;

  /* How two blades compare before their width: failed limits, then of failing blades the margins, of the others the grades. */
  function compare(a, b) {
    if (failed(a.margins) !== failed(b.margins)) return failed(a.margins) - failed(b.margins);
    const ladder = failed(a.margins)
      ? a.margins.map(([ratio], i) => Math.round(b.margins[i][0] * 1e9) - Math.round(ratio * 1e9))
      : a.grades.map(([grade], i) => grade - b.grades[i][0]);
    return ladder.find((gap) => gap !== 0) || 0;
  }

  function before(a, b) {
    return compare(a, b) || b.blade.blade_width - a.blade.blade_width || (a.blade.id < b.blade.id ? -1 : 1);
  }

  /* Blades that are graded alike and of one nominal width share a place. */
  function places(order) {
    let place = 0;
    return order.map((one, i) => {
      const first = order[place - 1];
      const shares = place && !failed(one.margins) && compare(first, one) === 0 && one.blade.blade_width >= first.blade.blade_width * (1 - SAME_SIZE);
      if (!shares) place = i + 1;
      return place;
    });
  }

  function line({ blade, margins: list, grades: marks }, place) {
    const good = failed(list) === 0;
    const item = text("li", "", { "data-blade": blade.id, "data-fits": good, "data-place": place });
    if (place === 1 && good) item.classList.add("sw-main");
    const why = good ? marks.map(([, words]) => words).filter(Boolean).join("; ") || "suits" : list[0][1];
    item.append(text("b", good ? `${place}. ${blade.name}` : `Out: ${blade.name}`), `: ${why}`);
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
      const order = d.blades.map((blade) => ({ blade, margins: margins(d, blade, job), grades: grades(d, blade, job) })).sort(before);
      const shared = places(order);
      const list = text("ol", "", { class: "sw-ranks" });
      list.append(...order.map((one, i) => line(one, shared[i])));
      answer.replaceChildren(list);
    }
    form.addEventListener("input", update);
    form.addEventListener("submit", (event) => event.preventDefault());
    update();
  };
})();
