/* Worksheets for the phone at the saw. Each takes readings, says what they mean and what to do next.
   Readings stay on this device. Nothing is sent anywhere. */
"use strict";

(function () {
  const { formulas: f, Refused } = window.sawside;
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
    count: { metric: ["", 1], inch: ["", 1] },
  };

  const digits = (x, n) => Number(x.toPrecision(n)).toString();
  const places = (x, n) => (Math.abs(x) < 0.5 * 10 ** -n ? 0 : x).toFixed(n);
  const show = {
    angle: (x) => `${places(x / DEGREE, 3)} deg`,
    doubt: (x) => `\u00b1 ${places((1.6449 * x) / DEGREE, 3)} deg (9 times in 10)`,
    stress: (x) => `${places(x / 1e6, 0)} MPa (${Math.round(x / PSI / 100) * 100} psi)`,
    force: (x) => `${digits(x, 3)} N (${digits(x / POUND, 3)} lbf)`,
    length: (x) => `${places(x * 1e3, 2)} mm (${places(x / INCH, 4)} in)`,
  };

  const ADVICE = {
    accept: "Accept: within the tolerance, doubt included.",
    adjust: "Adjust: outside the tolerance, doubt included.",
    "cannot tell": "Cannot tell: too near the tolerance for these readings. Repeat, or use a taller piece.",
    "instrument too coarse": "Instrument too coarse: no reading could prove this tolerance. Use a taller piece or better calipers.",
  };

  function turns(data, tilt) {
    if (!data.table_stop_arm || !data.table_stop_pitch) return [];
    const n = f.stopBoltTurns(tilt, data.table_stop_arm, data.table_stop_pitch);
    return [["Stop bolt", `${places(Math.abs(n), 2)} turn. Turn half of it, cut again: the piece says which way is right.`]];
  }

  function stressAdvice(blade, stress, data) {
    const lines = [["Stress in the blade", show.stress(stress)]];
    const low = blade.target_stress_low;
    const high = blade.target_stress_high;
    const away = (blade.target_stress - stress) / blade.target_stress;
    if (stress < low) lines.push(["Next", `Too slack: ${places(100 * away, 0)} % below what is aimed at. Tighten, turn the wheels by hand, test again.`]);
    else if (stress > high) lines.push(["Next", "Too tight. Loosen, turn the wheels by hand, test again."]);
    else lines.push(["Next", "Within the range for this blade. The maker's value goes first."]);
    if (data.turns_per_stress && Math.abs(away) > 0.02) {
      const n = (blade.target_stress - stress) * blade.turns_per_stress;
      if (Number.isFinite(n)) lines.push(["Tension screw", `about ${places(Math.abs(n), 1)} turns ${n > 0 ? "tighter" : "looser"}`]);
    }
    return lines;
  }

  const bladeInput = { name: "blade", label: "Blade", kind: "blade" };
  const num = (name, label, kind, start) => ({ name, label, kind, start });

  /* Every worksheet: what it asks and what it answers. d: this saw's numbers, v: readings in SI, b: the chosen blade. */
  const SHEETS = [
    {
      id: "turned-cut",
      title: "Test cut, turned end for end",
      words: "Rip one side of a piece, turn it end for end with the same face down, rip the other side. Measure the thickness at top and bottom.",
      inputs: (d) => [num("top", "Thickness at the top", "length"), num("bottom", "Thickness at the bottom", "length"),
        num("height", "Height between the two readings", "length", 0.05), num("spread", "Doubt of one reading", "length", d.caliper_doubt),
        num("tolerance", "Tolerance of square", "angle", d.square_tolerance)],
      answer: (d, v) => {
        const tilt = f.turnedCutTilt(v.top, v.bottom, v.height);
        const doubt = f.turnedCutDoubt(v.spread, v.height);
        const verdict = f.verdict(tilt, doubt, v.tolerance);
        return [["Table off square", `${show.angle(tilt)} ${show.doubt(doubt)}`], ["Verdict", ADVICE[verdict]],
          ...(verdict === "accept" ? [] : turns(d, tilt))];
      },
    },
    {
      id: "four-corners",
      title: "Test cut, four corners",
      words: "One cut, thickness at four corners. It shows table error minus the piece's own corner error: use a piece proved square. Taper is not the direction of the fence.",
      inputs: (d) => [num("ft", "Front, top", "length"), num("fb", "Front, bottom", "length"), num("bt", "Back, top", "length"),
        num("bb", "Back, bottom", "length"), num("height", "Height between readings", "length", 0.05),
        num("length", "Length between readings", "length", 0.2), num("spread", "Doubt of one reading", "length", d.caliper_doubt),
        num("tolerance", "Tolerance of square", "angle", d.square_tolerance)],
      answer: (d, v) => {
        const tilt = f.cutTilt(v.ft, v.fb, v.bt, v.bb, v.height);
        const taper = f.cutTaper(v.ft, v.fb, v.bt, v.bb, v.length);
        const twist = f.cutTwist(v.ft, v.fb, v.bt, v.bb);
        const doubt = f.tiltDoubt(v.spread, v.height);
        const verdict = f.verdict(tilt, doubt, v.tolerance);
        const lines = [["Tilt", `${show.angle(tilt)} ${show.doubt(doubt)}`], ["Verdict", ADVICE[verdict]],
          ["Taper", `${show.angle(taper)}: tells of drift, a piece that left the fence or a crooked face, not of the fence's direction`]];
        if (Math.abs(twist) > v.spread) lines.push(["Twist", `corners stand ${show.length(Math.abs(twist))} off a plane: measure again before moving anything`]);
        return verdict === "accept" ? lines : [...lines, ...turns(d, tilt)];
      },
    },
    {
      id: "push",
      title: "Tension by push",
      words: "Machine isolated, guides backed away. Pull a spring scale square to the flat of the free strand, half-way between the wheels, and measure how far it moves.",
      inputs: (d) => [bladeInput, num("push", "Push", "force", d.test_push), num("deflection", "Deflection", "length"),
        num("span", "Free strand", "length", d.free_span)],
      answer: (d, v, b) => {
        const force = f.forceFromDeflection(v.push, v.deflection, v.span, f.flexuralRigidity(b.body_width, b.blade_thickness, d.youngs_modulus));
        return [["Pull in the strand", show.force(force)], ...stressAdvice(b, force / b.body_area, d)];
      },
    },
    {
      id: "stretch",
      title: "Tension by stretch",
      words: "Clamp calipers to the just-taut blade over the gauge length, tighten, read how much longer it became.",
      inputs: (d) => [bladeInput, num("stretch", "Stretch", "length"), num("gauge", "Gauge length", "length", d.gauge_length)],
      answer: (d, v, b) => stressAdvice(b, f.stressFromStretch(v.stretch, v.gauge, d.youngs_modulus), d),
    },
    {
      id: "tone",
      title: "Tension by tone",
      words: "Machine isolated, guides backed away. Pluck the flat of the free strand half-way and take the lowest tone. Type it in, or let the page listen.",
      listen: true,
      inputs: (d) => [bladeInput, num("tone", "Tone", "tone"), num("span", "Free strand", "length", d.free_span)],
      answer: (d, v, b) => {
        const force = f.forceFromFrequency(v.tone, v.span, b.mass_per_length, f.flexuralRigidity(b.body_width, b.blade_thickness, d.youngs_modulus));
        return [["Note", f.note(v.tone)], ["Pull in the strand", show.force(force)], ...stressAdvice(b, force / b.body_area, d)];
      },
    },
    {
      id: "drift",
      title: "Drift cut",
      words: "Cut freehand along a line parallel to an edge until the cut runs straight by itself; stop the saw, hold the piece still, and measure edge to kerf at two places.",
      inputs: (d) => [num("start", "Edge to kerf at the start", "length"), num("end", "Edge to kerf at the end", "length"),
        num("length", "Length between", "length", 0.3), num("spread", "Doubt of one reading", "length", 0.00025),
        num("fence", "Fence length between fixings", "length", d.fence_length)],
      answer: (d, v) => {
        const angle = f.driftAngle(v.start, v.end, v.length);
        const lines = [["Drift", `${show.angle(angle)} ${show.doubt(f.driftDoubt(v.spread, v.length))}`]];
        if (Math.abs(angle) > 2 * DEGREE) lines.push(["Next", "Large: see to tracking, set and dull teeth first."]);
        else lines.push(["Next", "Repeat three times. Set the fence to the mean only if the cuts agree."]);
        if (d.has_fence && Number.isFinite(v.fence)) lines.push(["Move one fixing of the fence by", show.length(Math.abs(f.fenceShift(angle, v.fence)))]);
        return lines;
      },
    },
    {
      id: "straightedge",
      title: "Straightedge on the blade",
      words: "A straightedge on the body of the widest blade, clear of the set teeth, and the distance to the fence or slot at two places.",
      inputs: () => [num("start", "Distance at the blade", "length"), num("end", "Distance at the far end", "length"),
        num("length", "Between the two places", "length", 0.3), num("contact", "Blade body touched", "length", 0.01)],
      answer: (d, v) => [["Angle", `${show.angle(f.driftAngle(v.start, v.end, v.length))} ${show.doubt(f.straightedgeDoubt(1e-5, v.contact, 5e-5, v.length))}`],
        ["Mind", "A longer straightedge does not help: the short contact on the blade decides. A drift cut tells more."]],
    },
    {
      id: "scale",
      title: "What the tension scale means",
      words: "Three readings of the saw's own scale, each with the stress found by push, stretch or tone. Then the mark for any other blade.",
      inputs: () => [bladeInput, num("r1", "First mark", "mark"), num("s1", "its stress", "stress"), num("r2", "Second mark", "mark"),
        num("s2", "its stress", "stress"), num("r3", "Third mark", "mark"), num("s3", "its stress", "stress")],
      answer: (d, v, b) => {
        const loads = [v.s1, v.s2, v.s3].map((s) => 2 * s * b.body_area);
        const fit = f.fitScale([v.r1, v.r2, v.r3], loads);
        return [["Scatter", `${show.force(fit.residual)} at the wheel`], ...d.blades.map((blade) => {
          try {
            return [blade.name, `set the scale to ${digits(f.scaleReading(fit, blade.wheel_load), 3)}`];
          } catch (error) {
            if (!(error instanceof Refused)) throw error;
            return [blade.name, error.message];
          }
        })];
      },
    },
  ];

  const text = (tag, words, attributes = {}) => {
    const element = document.createElement(tag);
    element.textContent = words;
    Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, value));
    return element;
  };

  function read(input, system) {
    const kind = input.dataset.kind;
    if (kind === "blade") return input.value;
    const words = input.value.trim().replace(",", ".");
    return words === "" ? NaN : Number(words) * UNITS[kind][system][1];
  }

  function memory(key) {
    const name = `sawside:${location.pathname}:${key}`;
    return {
      get: () => { try { return JSON.parse(localStorage.getItem(name)) || {}; } catch { return {}; } },
      set: (value) => { try { localStorage.setItem(name, JSON.stringify(value)); } catch { /* private window: nothing is kept */ } },
    };
  }

  function build(sheet, data, place) {
    const kept = memory(sheet.id);
    const section = text("section", "", { class: "sw-worksheet", "aria-labelledby": `${sheet.id}-title`, id: sheet.id });
    section.append(text("h2", sheet.title, { id: `${sheet.id}-title` }), text("p", sheet.words));
    const form = text("form", "", { novalidate: "" });
    const chooser = text("select", "", { id: `${sheet.id}-system`, name: "system" });
    chooser.append(text("option", "mm, N", { value: "metric" }), text("option", "in, lbf", { value: "inch" }));
    const inputs = sheet.inputs(data);
    const fields = inputs.map((input) => field(sheet, input, data));
    const result = text("output", "", { class: "sw-answer", "aria-live": "polite", for: inputs.map((i) => `${sheet.id}-${i.name}`).join(" ") });
    const row = text("p", "", { class: "sw-input" });
    row.append(text("label", "Units", { for: chooser.id }), chooser);
    form.append(row, ...fields.map((one) => one.row));
    section.append(form);
    if (sheet.listen) section.append(listener(sheet, () => update()));
    section.append(result, buttons(sheet, () => state));
    place.append(section);

    let state = [];
    let system = "metric";
    const values = kept.get();
    if (values.system === "inch") { chooser.value = "inch"; system = "inch"; }
    fields.forEach(({ input, start, unit, kind }) => {
      if (kind === "blade") input.value = values[input.name] || data.fitted || input.value;
      else {
        input.value = values[input.name] ?? (start ? digits(start / UNITS[kind][system][1], 6) : "");
        unit.textContent = UNITS[kind][system][0];
      }
    });
    chooser.addEventListener("change", () => {
      const next = chooser.value;
      fields.forEach(({ input, unit, kind }) => {
        if (kind === "blade") return;
        const si = read(input, system);
        input.value = Number.isFinite(si) ? digits(si / UNITS[kind][next][1], 6) : "";
        unit.textContent = UNITS[kind][next][0];
      });
      system = next;
      update();
    });
    form.addEventListener("input", () => update());
    form.addEventListener("submit", (event) => event.preventDefault());

    function update() {
      const now = { system };
      const v = {};
      fields.forEach(({ input }) => { now[input.name] = input.value; v[input.name] = read(input, system); });
      kept.set(now);
      const blade = data.blades.find((one) => one.id === v.blade);
      let lines;
      const empty = fields.some(({ input, start, kind }) => kind !== "blade" && !start && input.value.trim() === "");
      try {
        lines = empty ? [["", "Fill in the readings."]] : sheet.answer(data, v, blade);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        lines = [["", `No answer: ${error.message}.`]];
      }
      state = [...fields.map(({ input, words, unit }) => [words, `${input.value} ${unit ? unit.textContent : ""}`.trim()]), ...lines];
      result.replaceChildren(...lines.map(([name, words]) => {
        const line = text("p", "");
        if (name) line.append(text("b", `${name}: `));
        line.append(words);
        return line;
      }));
    }
    update();
  }

  function field(sheet, input, data) {
    const id = `${sheet.id}-${input.name}`;
    const row = text("p", "", { class: "sw-input" });
    row.append(text("label", input.label, { for: id }));
    if (input.kind === "blade") {
      const select = text("select", "", { id, name: input.name, "data-kind": "blade" });
      data.blades.forEach((blade) => select.append(text("option", blade.name, { value: blade.id })));
      row.append(select);
      return { row, input: select, kind: "blade", words: input.label };
    }
    const box = text("input", "", { id, name: input.name, inputmode: "decimal", autocomplete: "off", "data-kind": input.kind });
    const unit = text("span", "");
    row.append(box, " ", unit);
    return { row, input: box, unit, kind: input.kind, start: input.start, words: input.label };
  }

  function buttons(sheet, state) {
    const row = text("p", "", { class: "sw-buttons" });
    const print = text("button", "Print this page filled in", { type: "button" });
    print.addEventListener("click", () => window.print());
    const save = text("button", "Save the readings (CSV)", { type: "button" });
    save.addEventListener("click", () => {
      const quote = (words) => `"${String(words).replace(/"/g, '""')}"`;
      const rows = [["when", new Date().toISOString()], ["worksheet", sheet.title], ...state()];
      const link = text("a", "", { download: `${sheet.id}.csv` });
      link.href = URL.createObjectURL(new Blob([rows.map((one) => one.map(quote).join(",")).join("\r\n") + "\r\n"], { type: "text/csv" }));
      link.click();
      URL.revokeObjectURL(link.href);
    });
    row.append(print, save);
    return row;
  }

  /* Listening: only where the browser allows the microphone (https or localhost); otherwise it says so. */
  function listener(sheet, changed) {
    const row = text("p", "", { class: "sw-buttons" });
    const say = text("span", "", { "aria-live": "polite", id: `${sheet.id}-heard` });
    if (!window.isSecureContext || !navigator.mediaDevices) {
      say.textContent = "This page cannot listen when it is opened as a file: browsers allow the microphone only from https or localhost. Type the tone in.";
      row.append(say);
      return row;
    }
    const button = text("button", "Listen", { type: "button", id: `${sheet.id}-listen`, "aria-pressed": "false" });
    let stop = null;
    button.addEventListener("click", async () => {
      if (stop) { stop(); return; }
      try {
        const stream = await navigator.mediaDevices.getUserMedia({ audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false } });
        const context = new AudioContext();
        const ear = context.createAnalyser();
        ear.fftSize = 8192;
        context.createMediaStreamSource(stream).connect(ear);
        const samples = new Float32Array(ear.fftSize);
        const heard = [];
        const timer = setInterval(() => {
          ear.getFloatTimeDomainData(samples);
          const loud = Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length) > 0.002;
          const tone = loud ? f.tone(samples, context.sampleRate) : null;
          if (tone === null) return;
          heard.push(tone);
          if (heard.length > 7) heard.shift();
          const middle = [...heard].sort((a, b) => a - b)[Math.floor(heard.length / 2)];
          say.textContent = `heard ${middle.toFixed(1)} Hz, ${f.note(middle)}`;
          document.getElementById(`${sheet.id}-tone`).value = middle.toFixed(2);
          changed();
        }, 120);
        button.textContent = "Stop listening";
        button.setAttribute("aria-pressed", "true");
        say.textContent = "Listening. Pluck the strand.";
        stop = () => {
          clearInterval(timer);
          stream.getTracks().forEach((track) => track.stop());
          context.close();
          button.textContent = "Listen";
          button.setAttribute("aria-pressed", "false");
          stop = null;
        };
      } catch (error) {
        say.textContent = `The microphone could not be used (${error.name}). Type the tone in.`;
      }
    });
    row.append(button, " ", say);
    return row;
  }

  /* Which blade for this cut: the same order as the printed table: a failed limit puts a blade out, else its narrowest
     margin decides, and no limit is weighed against another. */
  function chooser(data, place) {
    const section = text("section", "", { class: "sw-worksheet", "aria-labelledby": "choose-title", id: "choose" });
    section.append(text("h2", "Which blade for this cut", { id: "choose-title" }));
    const form = text("form", "");
    const slide = (name, label, low, high, start) => {
      const row = text("p", "", { class: "sw-input" });
      const input = text("input", "", { type: "range", id: `choose-${name}`, name, min: low, max: high, step: 1, value: start });
      const value = text("output", "", { for: input.id });
      row.append(text("label", label, { for: input.id }), input, value);
      form.append(row);
      return { input, value };
    };
    const height = slide("height", "Thickness of the work", 3, Math.floor(data.cutting_height_max * 1e3), Math.min(25, Math.floor(data.cutting_height_max * 1e3)));
    const radius = slide("radius", "Tightest curve (0 is a straight cut)", 0, 300, 0);
    const row = text("p", "", { class: "sw-input" });
    const wood = text("select", "", { id: "choose-wood", name: "wood" });
    [["solid", "solid wood"], ["sheet", "plywood, sheet, plastic"]].forEach(([value, words]) => wood.append(text("option", words, { value })));
    row.append(text("label", "Material", { for: wood.id }), wood);
    form.append(row);
    form.addEventListener("submit", (event) => event.preventDefault());
    const answer = text("output", "", { class: "sw-answer", "aria-live": "polite" });
    section.append(form, answer);
    place.append(section);

    function margins(blade, h, r) {
      const found = [[blade.fits ? Infinity : 0, blade.reason]];
      const least = f.teethInWork(h, blade.tooth_pitch) / data.teeth_least;
      found.push([least, `${digits(least * data.teeth_least, 3)} teeth in the work, at least ${data.teeth_least} wanted`]);
      if (wood.value === "sheet") found.push([data.teeth_most / (least * data.teeth_least), `${digits(least * data.teeth_least, 3)} teeth in the work, at most ${data.teeth_most} wanted`]);
      if (r > 0) {
        try {
          const turning = f.minimumRadius(blade.blade_width, blade.blade_thickness, blade.kerf);
          found.push([r / turning, `turns a radius of ${Math.ceil(turning * 1e3)} mm`]);
        } catch (error) {
          if (!(error instanceof Refused)) throw error;
          found.push([0, error.message]);
        }
      } else found.push([blade.blade_width / data.straight_width, `${digits(blade.blade_width * 1e3, 3)} mm wide for a straight cut, ${digits(data.straight_width * 1e3, 3)} mm wanted`]);
      return found.sort((a, b) => a[0] - b[0]);
    }
    function before(a, b) {
      const failed = (m) => m.filter(([ratio]) => ratio < 1 - 1e-9).length;
      if (failed(a.margins) !== failed(b.margins)) return failed(a.margins) - failed(b.margins);
      for (let i = 0; i < a.margins.length; i += 1) {
        const gap = Math.min(b.margins[i][0], 2) - Math.min(a.margins[i][0], 2);
        if (Math.abs(gap) > 1e-9) return gap;
      }
      return b.blade.blade_width - a.blade.blade_width;
    }
    function update() {
      const h = height.input.valueAsNumber * 1e-3;
      const r = radius.input.valueAsNumber * 1e-3;
      height.value.textContent = ` ${height.input.value} mm (${digits(h / INCH, 3)} in)`;
      radius.value.textContent = r ? ` ${radius.input.value} mm (${digits(r / INCH, 3)} in)` : " straight";
      const order = data.all_blades.map((blade) => ({ blade, margins: margins(blade, h, r) })).sort(before);
      answer.replaceChildren(...order.map(({ blade, margins: m }, i) => {
        const good = m[0][0] >= 1 - 1e-9;
        const line = text("p", "");
        line.append(text("b", good ? `${i + 1}. ${blade.name}: ` : `Not ${blade.name}: `), m[0][1]);
        return line;
      }));
    }
    form.addEventListener("input", update);
    update();
  }

  function start() {
    const source = document.getElementById("sw-data");
    const place = document.getElementById("sw-worksheets");
    if (!source || !place || place.childElementCount) return;
    const data = JSON.parse(source.textContent);
    if (data.blades.length) {
      if (data.cutting_height_max) chooser(data, place);
      SHEETS.forEach((sheet) => build(sheet, data, place));
    }
  }
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", start);
  else start();
})();
