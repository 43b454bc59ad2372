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
    const n = Math.abs(f.stopBoltTurns(tilt, d.table_stop_arm, d.table_stop_pitch));
    return [["Stop bolt", `${places(n, 2)} turn. Isolate the saw, turn half of it, cut again: the piece says which way is right.`]];
  }

  /* Turns go with the pull: from taut to the target in so many turns, and the missing part in proportion. */
  function screw(b, force) {
    const share = (b.strand_force - force) / b.strand_force;
    const way = share > 0 ? "tighter" : "looser";
    if (b.screw_turns) return [["Tension screw", `about ${places(Math.abs(share * b.screw_turns), 1)} turns ${way}`]];
    if (b.solid_spring_turns) {
      return [["Tension screw", `${places(Math.abs(share * b.solid_spring_turns), 1)} turns ${way} or more: what the spring takes up is not known`]];
    }
    return [];
  }

  function tension(b, force) {
    const stress = force / b.body_area;
    const away = (b.target_stress - stress) / b.target_stress;
    const lines = [["Stress in the blade", show.stress(stress)], ["Aimed at", show.stress(b.target_stress)], ["Pull in the strand", show.force(force)]];
    if (stress < b.target_stress_low) lines.push(["Next", `Too slack: ${places(100 * away, 0)} % below what is aimed at. Tighten, turn the wheels by hand, test again.`]);
    else if (stress > b.target_stress_high) lines.push(["Next", "Too tight. Loosen, turn the wheels by hand, test again."]);
    else return [...lines, ["Next", "Within the range for this blade. The maker's value goes first."]];
    return [...lines, ...screw(b, force)];
  }

  const rigidity = (d, b) => f.flexuralRigidity(b.body_width, b.blade_thickness, d.youngs_modulus);
  const blade = { name: "blade", label: "Blade", kind: "blade" };
  const num = (name, label, kind, start) => ({ name, label, kind, start });

  const turnedCut = {
    id: "turned-cut",
    title: "Test cut, turned end for end",
    words: "Rip one side of a piece, turn it end for end with the same face down, rip the other side. Measure the thickness at top and bottom.",
    inputs: (d) => [num("top", "Thickness at the top", "length"), num("bottom", "Thickness at the bottom", "length"),
      num("height", "Height between the two readings", "length", 0.05), num("spread", "Doubt of one reading", "length", d.caliper_doubt),
      num("tolerance", "Tolerance of square", "angle", d.square_tolerance)],
    answer(d, v) {
      const tilt = f.turnedCutTilt(v.top, v.bottom, v.height);
      const doubt = f.turnedCutDoubt(v.spread, v.height);
      const verdict = f.verdict(tilt, doubt, v.tolerance);
      return [["Table off square", `${show.angle(tilt)} ${show.doubt(doubt)}`], ["Verdict", ADVICE[verdict]], ...(verdict === "accept" ? [] : stopBolt(d, tilt))];
    },
  };

  const fourCorners = {
    id: "four-corners",
    title: "Test cut, four corners",
    words: "One cut, thickness at four corners. It shows table error minus the piece's own corner error: use a piece proved square. Taper is not the direction of the fence.",
    inputs: (d) => [num("ft", "Front, top", "length"), num("fb", "Front, bottom", "length"), num("bt", "Back, top", "length"),
      num("bb", "Back, bottom", "length"), num("height", "Height between readings", "length", 0.05),
      num("length", "Length between readings", "length", 0.2), num("spread", "Doubt of one reading", "length", d.caliper_doubt),
      num("tolerance", "Tolerance of square", "angle", d.square_tolerance)],
    answer(d, v) {
      const tilt = f.cutTilt(v.ft, v.fb, v.bt, v.bb, v.height);
      const doubt = f.tiltDoubt(v.spread, v.height);
      const verdict = f.verdict(tilt, doubt, v.tolerance);
      const taper = f.cutTaper(v.ft, v.fb, v.bt, v.bb, v.length);
      const twist = f.cutTwist(v.ft, v.fb, v.bt, v.bb);
      const lines = [["Tilt", `${show.angle(tilt)} ${show.doubt(doubt)}`], ["Verdict", ADVICE[verdict]],
        ["Taper", `${show.angle(taper)}: tells of drift, a piece that left the fence or a crooked face, not of the fence's direction`]];
      if (Math.abs(twist) > v.spread) lines.push(["Twist", `corners stand ${show.length(Math.abs(twist))} off a plane: measure again before moving anything`]);
      return verdict === "accept" ? lines : [...lines, ...stopBolt(d, tilt)];
    },
  };

  const push = {
    id: "push",
    title: "Tension by push",
    words: "Machine isolated, guides backed away. Pull a spring scale square to the flat of the free strand, half-way between the wheels, and measure how far it moves.",
    inputs: (d) => [blade, num("push", "Push", "force", d.test_push), num("deflection", "Deflection", "length"), num("span", "Free strand", "length", d.free_span)],
    answer: (d, v, b) => tension(b, f.forceFromDeflection(v.push, v.deflection, v.span, rigidity(d, b))),
  };

  const stretch = {
    id: "stretch",
    title: "Tension by stretch",
    words: "Machine isolated. Clamp calipers to the just-taut blade over the gauge length, tighten, read how much longer it became.",
    inputs: (d) => [blade, num("stretch", "Stretch", "length"), num("gauge", "Gauge length", "length", d.gauge_length)],
    answer: (d, v, b) => tension(b, f.stressFromStretch(v.stretch, v.gauge, d.youngs_modulus) * b.body_area),
  };

  const tone = {
    id: "tone",
    title: "Tension by tone",
    words: "Machine isolated, guides backed away. Pluck the flat of the free strand half-way and take the lowest tone. Type it in, or let the page listen.",
    listen: "tone",
    inputs: (d) => [blade, num("tone", "Tone", "tone"), num("span", "Free strand", "length", d.free_span)],
    answer(d, v, b) {
      const force = f.forceFromFrequency(v.tone, v.span, b.mass_per_length, rigidity(d, b));
      return [...tension(b, force), ["Note", f.note(v.tone)]];
    },
  };

  const drift = {
    id: "drift",
    title: "Drift cut",
    words: "Cut freehand along a line parallel to an edge until the cut runs straight by itself; stop the saw, hold the piece still, and measure edge to kerf at two places.",
    inputs: (d) => [num("start", "Edge to kerf at the start", "length"), num("end", "Edge to kerf at the end", "length"),
      num("length", "Length between", "length", 0.3), num("spread", "Doubt of one reading", "length", 0.00025),
      ...(d.fence === "adjustable" ? [num("fence", "Fence length between fixings", "length", d.fence_length)] : [])],
    answer(d, v) {
      const angle = f.driftAngle(v.start, v.end, v.length);
      const lines = [["Drift", `${show.angle(angle)} ${show.doubt(f.driftDoubt(v.spread, v.length))}`]];
      if (Math.abs(angle) > 2 * DEGREE) return [...lines, ["Next", "Large: see to tracking, set and dull teeth first."]];
      lines.push(["Next", "Repeat three times. Set the fence to the mean only if the cuts agree."]);
      if (d.fence === "adjustable") lines.push(["Move one fixing of the fence by", show.length(Math.abs(f.fenceShift(angle, v.fence)))]);
      return lines;
    },
  };

  const straightedge = {
    id: "straightedge",
    title: "Straightedge on the blade",
    words: "Machine isolated. A straightedge on the body of the widest blade, clear of the set teeth, and the distance to the fence or slot at two places.",
    inputs: () => [num("start", "Distance at the blade", "length"), num("end", "Distance at the far end", "length"),
      num("length", "Between the two places", "length", 0.3), num("contact", "Blade body touched", "length", 0.01)],
    answer: (d, v) => [["Angle", `${show.angle(f.driftAngle(v.start, v.end, v.length))} ${show.doubt(f.straightedgeDoubt(1e-5, v.contact, 5e-5, v.length))}`],
      ["Mind", "A longer straightedge does not help: the short contact on the blade decides. A drift cut tells more."]],
  };

  const scale = {
    id: "scale",
    title: "What the tension scale means",
    words: "Three readings of the saw's own scale, each with the stress found by push, stretch or tone. Then the mark for any other blade.",
    inputs: () => [blade, num("r1", "First mark", "mark"), num("s1", "Its stress", "stress"), num("r2", "Second mark", "mark"),
      num("s2", "Its stress", "stress"), num("r3", "Third mark", "mark"), num("s3", "Its stress", "stress")],
    answer(d, v, b) {
      const fit = f.fitScale([v.r1, v.r2, v.r3], [v.s1, v.s2, v.s3].map((stress) => 2 * stress * b.body_area));
      return [...d.blades.map((other) => {
        try {
          return [other.name, `set the scale to ${digits(f.scaleReading(fit, other.wheel_load), 3)}`];
        } catch (error) {
          if (!(error instanceof Refused)) throw error;
          return [other.name, error.message];
        }
      }), ["Scatter", `${show.force(fit.residual)} at the wheel`]];
    },
  };

  window.sawside.sheets = [turnedCut, fourCorners, push, stretch, tone, drift, straightedge, scale];
})();
