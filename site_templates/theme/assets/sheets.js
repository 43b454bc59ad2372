/* Every worksheet: what it asks and what it answers. d: this saw's numbers, v: readings in SI, b: the chosen blade.
   An answer is a list of [name, words]; the first line is the one that is printed large. */
"use strict";

(function () {
  const { formulas: f, Refused, DEGREE, digits, places, show } = window.sawside;

  const ADVICE = {
    accept: "Accept: within the tolerance, doubt included.",
    adjust: "Adjust: outside the tolerance, doubt included.",
    "cannot tell": "Cannot tell: too near the tolerance for these readings. Repeat, or use a taller piece.",
    "instrument too coarse": "Instrument too coarse: no reading could prove this tolerance. Use a taller piece or better calipers.",
  };

  function stopBolt(d, tilt) {
    if (!d.table_stop_arm || !d.table_stop_pitch) return [];
    const n = Math.abs(f.stop_bolt_turns(tilt, d.table_stop_arm, d.table_stop_pitch));
    return [["Stop bolt", `${places(n, 2)} turn. Isolate the saw, turn half of it, cut again: the piece says which way is right.`]];
  }

  /* Turns go with the pull: from taut to the setting in so many turns, and the missing part in proportion. */
  function screw(b, stress) {
    const share = (b.setting_stress - stress) / b.setting_stress;
    const way = share > 0 ? "tighter" : "looser";
    if (b.screw_turns) return [["Tension screw", `about ${places(Math.abs(share * b.screw_turns), 1)} turns ${way}, no further`]];
    if (b.solid_spring_turns && share < 0) {
      return [["Tension screw", `${places(Math.abs(share * b.solid_spring_turns), 1)} turns ${way} or more: what the spring takes up is not known`]];
    }
    return share > 0 ? [["Tension screw", "a little at a time, and test again each time"]] : [];
  }

  /* The limit of saw or blade [Pa] and what it is, or none that is known. */
  function limit(b) {
    if (b.saw_stress_max !== null && b.saw_stress_max < b.blade_stress_max) return [b.saw_stress_max, "what this saw may carry"];
    return [b.blade_stress_max, "what this blade may take"];
  }

  /* One range for each blade, the same on paper and here; no advice leads past a limit. The verdict first, then what to do. */
  function tension(b, force) {
    const stress = force / b.body_area;
    const facts = [["Stress in the blade", show.stress(stress)], ["Pull in the strand", show.force(force)],
      ["Set it to", `${show.stress(b.setting_stress)}; good from ${show.stress(b.setting_stress_from)} to ${show.stress(b.setting_stress_to)}`]];
    if (b.limited) facts.push(["Mind", `${b.limited[0].toUpperCase()}${b.limited.slice(1)}.`]);
    return [...judged(b, stress), ...facts];
  }

  function judged(b, stress) {
    const [most, whose] = limit(b);
    if (f.decide(stress, b.setting_stress_from, b.setting_stress_to, 0) === "accept") {
      return [["Verdict", "Good"], ["Next", "Leave it. The maker's value goes first."]];
    }
    if (stress > most) {
      return [["Verdict", `STOP, past ${whose}`], ["Next", `Slacken at once, by more than ${places(100 * (1 - most / stress), 0)} %; turn the wheels by hand, test again.`], ...screw(b, stress)];
    }
    if (stress > b.setting_stress_to) return [["Verdict", "Too tight"], ["Next", "Loosen, turn the wheels by hand, test again."], ...screw(b, stress)];
    const away = (b.setting_stress - stress) / b.setting_stress;
    return [["Verdict", "Too slack"], ["Next", `${places(100 * away, 0)} % below the setting. Tighten, turn the wheels by hand, test again.`], ...screw(b, stress)];
  }

  const rigidity = (d, b) => f.flexural_rigidity(b.body_width, b.blade_thickness, d.youngs_modulus);
  const blade = { name: "blade", label: "Blade", kind: "blade" };
  const num = (name, label, kind, start) => ({ name, label, kind, start });

  const corners = (d) => [num("ft", "Front, top", "length"), num("fb", "Front, bottom", "length"), num("bt", "Back, top", "length"),
    num("bb", "Back, bottom", "length"), num("height", "Height between upper and lower readings, as the jaws touch", "length", d.test_height)];
  const proof = (d) => [num("spread", "Doubt of one reading", "length", d.caliper_doubt), num("tolerance", "Tolerance of square", "angle", d.square_tolerance)];

  const turnedCut = {
    id: "turned-cut",
    title: "Test cut, turned end for end",
    words: "Rip one side of a piece, turn it end for end with the same face down, rip the other side. Measure the thickness across both sawn faces near both ends, at the top and at the bottom.",
    inputs: (d) => [...corners(d), ...proof(d)],
    answer(d, v) {
      const top = (v.ft + v.bt) / 2;
      const bottom = (v.fb + v.bb) / 2;
      const tilt = f.turned_cut_tilt(top, bottom, v.height);
      const doubt = f.turned_cut_doubt(v.spread / Math.SQRT2, v.height);
      const verdict = f.verdict(tilt, doubt, v.tolerance);
      const adjust = f.turned_cut_limit(v.spread, v.tolerance, v.height, "adjust");
      const coarse = f.verdict(0, doubt, v.tolerance) === "instrument too coarse";
      const accept = coarse ? "nothing" : show.length(f.turned_cut_limit(v.spread, v.tolerance, v.height, "accept"));
      return [["Verdict", ADVICE[verdict]], ...(verdict === "adjust" ? stopBolt(d, tilt) : []),
        ["Difference", `${show.length(top - bottom)}; here accept up to ${accept}, adjust over ${show.length(adjust)}`],
        ["Table off square", `${show.angle(tilt)} ${show.doubt(doubt)}`]];
    },
  };

  const fourCorners = {
    id: "four-corners",
    title: "Test cut, four corners",
    words: "One cut, thickness at four corners. It shows table error minus the piece's own corner error: use a piece proved square. Taper is not the direction of the fence.",
    inputs: (d) => [...corners(d), num("length", "Length between readings", "length", 0.2), ...proof(d)],
    answer(d, v) {
      const tilt = f.cut_tilt(v.ft, v.fb, v.bt, v.bb, v.height);
      const doubt = f.tilt_doubt(v.spread, v.height);
      const verdict = f.verdict(tilt, doubt, v.tolerance);
      const taper = f.cut_taper(v.ft, v.fb, v.bt, v.bb, v.length);
      const twist = f.cut_twist(v.ft, v.fb, v.bt, v.bb);
      const lines = [["Verdict", ADVICE[verdict]], ["Tilt", `${show.angle(tilt)} ${show.doubt(doubt)}`],
        ["Taper", `${show.angle(taper)}: tells of drift, a piece that left the fence or a crooked face, not of the fence's direction`]];
      if (f.twist_matters(twist, v.spread)) lines.push(["Twist", `corners stand ${show.length(Math.abs(twist))} off a plane: measure again before moving anything`]);
      return verdict === "adjust" ? [...lines, ...stopBolt(d, tilt)] : lines;
    },
  };

  const push = {
    id: "push",
    title: "Tension by push",
    words: "Machine isolated, guides backed away. Pull a spring scale square to the flat of the free strand, half-way between the wheels, and measure how far it moves.",
    inputs: (d) => [blade, num("push", "Push", "force", d.test_push), num("deflection", "Deflection", "length"), num("span", "Free strand", "length", d.free_span)],
    answer: (d, v, b) => tension(b, f.force_from_deflection(v.push, v.deflection, v.span, rigidity(d, b))),
  };

  const stretch = {
    id: "stretch",
    title: "Tension by stretch",
    words: "Machine isolated. Clamp calipers to the just-taut blade over the gauge length, tighten, read how much longer it became.",
    inputs: (d) => [blade, num("stretch", "Stretch", "length"), num("gauge", "Gauge length", "length", d.gauge_length)],
    answer: (d, v, b) => tension(b, f.stress_from_stretch(v.stretch, v.gauge, d.youngs_modulus) * b.body_area),
  };

  const tone = {
    id: "tone",
    title: "Tension by tone",
    words: "Machine isolated, guides backed away. Pluck the flat of the free strand half-way and take the lowest tone. Type it in, or let the page listen.",
    listen: "tone",
    inputs: (d) => [blade, num("tone", "Tone", "tone"), num("span", "Free strand", "length", d.free_span)],
    answer(d, v, b) {
      const force = f.force_from_frequency(v.tone, v.span, b.mass_per_length, rigidity(d, b));
      return [...tension(b, force), ["Note", f.pluck_note(v.tone)]];
    },
  };

  const drift = {
    id: "drift",
    title: "Drift cut",
    words: "Cut freehand along a line parallel to the edge of a board until the cut runs straight by itself; stop the saw, hold the board still, draw its edge onto the table. Measure from the mitre slot, or from the edge of the table, to that line at two places. Board edge to cut says nothing: it is the same at any drift.",
    inputs: (d) => [num("start", "Slot or table edge to the line, at the near place", "length"), num("end", "Slot or table edge to the line, at the far place", "length"),
      num("length", "Between the two places", "length", 0.3), num("spread", "Doubt of one reading", "length", 0.00025),
      ...(d.fence === "adjustable" ? [num("fence", "Fence length between fixings", "length", d.fence_length)] : [])],
    answer(d, v) {
      const angle = f.drift_angle(v.start, v.end, v.length);
      const lines = [["Drift", `${show.angle(angle)} ${show.doubt(f.drift_doubt(v.spread, v.length))}`]];
      if (Math.abs(angle) > 2 * DEGREE) return [...lines, ["Next", "Large: see to tracking, set and dull teeth first."]];
      lines.push(["Next", "Repeat three times. If the cuts agree, turn the fence to the mean; or keep the fence along the slot and cure the blade. One way in a shop, not both."]);
      if (d.fence === "adjustable") {
        const shift = f.fence_shift(angle, v.fence);
        lines.push(["Fence along slot or table edge now", `move its far fixing ${show.length(Math.abs(shift))} ${shift > 0 ? "away from" : "towards"} the slot or edge you measured from`]);
      }
      return lines;
    },
  };

  /* A straightedge that is off by more than this was read wrongly. */
  function seen(angle) {
    if (Math.abs(angle) > 10 * DEGREE) throw new Refused("more than 10 degrees: look at the two distances again");
    return angle;
  }

  const straightedge = {
    id: "straightedge",
    title: "Straightedge on the blade",
    words: "Machine isolated. A straightedge on the body of the widest blade, clear of the set teeth, and the distance to the fence or slot at two places.",
    inputs: () => [num("start", "Distance at the blade", "length"), num("end", "Distance at the far end", "length"),
      num("length", "Between the two places", "length", 0.3), num("contact", "Blade body touched", "length", 0.01)],
    answer: (d, v) => [["Angle", `${show.angle(seen(f.drift_angle(v.start, v.end, v.length)))} ${show.doubt(f.straightedge_doubt(1e-5, v.contact, 5e-5, v.length))}`],
      ["Mind", "A longer straightedge does not help: the short contact on the blade decides. A drift cut tells more."]],
  };

  const scale = {
    id: "scale",
    title: "What the tension scale means",
    words: "Three readings of the saw's own scale, each with the stress found by push, stretch or tone. Then the mark for any other blade.",
    inputs: () => [blade, num("r1", "First mark", "mark"), num("s1", "Its stress", "stress"), num("r2", "Second mark", "mark"),
      num("s2", "Its stress", "stress"), num("r3", "Third mark", "mark"), num("s3", "Its stress", "stress")],
    answer(d, v, b) {
      const fit = f.fit_scale([v.r1, v.r2, v.r3], [v.s1, v.s2, v.s3].map((stress) => 2 * stress * b.body_area));
      return [...d.blades.map((other) => {
        try {
          const mark = f.scale_reading(fit, other.setting_stress, other.body_area);
          return [other.name, `set the scale to ${digits(mark, 3)}${mark > fit.highest ? ", above the highest reading: prove it by the push" : ""}${other.limited ? `; ${other.limited}` : ""}`];
        } catch (error) {
          if (!(error instanceof Refused)) throw error;
          return [other.name, error.message];
        }
      }), ["Scatter", `${show.force(fit.residual)} at the wheel`]];
    },
  };

  window.sawside.sheets = [turnedCut, fourCorners, push, stretch, tone, drift, straightedge, scale];
})();
