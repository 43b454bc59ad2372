/* The formulas of the worksheets: the same as in generator/sawside/calc, SI in and out.
   Every function here is compared with its Python twin on random inputs in a browser (tests/browser).
   A function refuses what its formula does not cover by throwing Refused with words for the page. */
"use strict";

class Refused extends Error {}

function need(holds, words) {
  if (!holds) throw new Refused(words);
}

function finite(...numbers) {
  need(numbers.every(Number.isFinite), "fill in every number");
}

const formulas = {
  halve(f, low, high) {
    const atLow = f(low);
    const atHigh = f(high);
    if (atLow === 0) return low;
    if (atHigh === 0) return high;
    need((atLow > 0) !== (atHigh > 0), "there is no answer for these numbers");
    for (let i = 0; i < 200; i += 1) {
      const middle = 0.5 * (low + high);
      if (middle === low || middle === high) break;
      if ((f(middle) > 0) === (atLow > 0)) low = middle;
      else high = middle;
    }
    return 0.5 * (low + high);
  },

  /* tension by push */
  bendingPart(x) {
    if (x < 0.05) return (x * x) / 3 - (2 * x ** 4) / 15 + (17 * x ** 6) / 315;
    return 1 - Math.tanh(x) / x;
  },
  flexuralRigidity(bodyWidth, thickness, modulus) {
    return (modulus * bodyWidth * thickness ** 3) / 12;
  },
  clampedDeflection(push, span, force, rigidity) {
    return ((push * span) / (4 * force)) * formulas.bendingPart((span / 4) * Math.sqrt(force / rigidity));
  },
  pushForDeflection(deflection, span, force, rigidity) {
    finite(deflection, span, force, rigidity);
    need(deflection >= 0 && deflection <= span / 20, "the deflection must be at most a twentieth of the span");
    return deflection / formulas.clampedDeflection(1, span, force, rigidity);
  },
  forceFromDeflection(push, deflection, span, rigidity) {
    finite(push, deflection, span, rigidity);
    need(push > 0 && deflection > 0 && span > 0, "push and deflection must be more than 0");
    const slack = (push * span ** 3) / (192 * rigidity);
    need(deflection < Math.min(slack, span / 20), "that much deflection means a slack blade, or is too much for the method");
    const string = (push * span) / (4 * deflection);
    return formulas.halve((force) => formulas.clampedDeflection(push, span, force, rigidity) - deflection,
      1e-9 * string, 4 * string);
  },

  /* tension by stretch */
  stressFromStretch(stretch, gauge, modulus) {
    finite(stretch, gauge, modulus);
    need(gauge > 0, "the gauge length must be more than 0");
    need(stretch >= 0 && stretch < 0.01 * gauge, "the stretch must be from 0 to less than 1 % of the gauge length");
    return (modulus * stretch) / gauge;
  },

  /* tension by tone */
  clampedFrequency(span, force, massPerLength, rigidity) {
    const pull = (force * span ** 2) / (4 * rigidity);
    const unbalanced = (y) => {
      const x = Math.sqrt(y * y + pull);
      return y * Math.sin(y) + x * Math.tanh(x) * Math.cos(y);
    };
    const y = formulas.halve(unbalanced, Math.PI / 2, Math.PI);
    const omega = (4 * y * Math.sqrt(y * y + pull) * Math.sqrt(rigidity / massPerLength)) / span ** 2;
    return omega / (2 * Math.PI);
  },
  forceFromFrequency(frequency, span, massPerLength, rigidity) {
    finite(frequency, span, massPerLength, rigidity);
    need(frequency > 0 && span > 0, "the tone must be more than 0 Hz");
    const slack = formulas.clampedFrequency(span, 0, massPerLength, rigidity);
    need(frequency > slack, "a tone this low is that of a slack blade");
    const string = massPerLength * (2 * span * frequency) ** 2;
    return formulas.halve((force) => formulas.clampedFrequency(span, force, massPerLength, rigidity) - frequency, 0, string);
  },
  note(frequency) {
    need(frequency >= 8 && frequency <= 12544, "the tone must be from 8 to 12544 Hz");
    const names = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"];
    const named = (n) => `${names[((n % 12) + 12) % 12]}${Math.floor(n / 12) - 1}`;
    const exact = 69 + 12 * Math.log2(frequency / 440);
    const number = Math.floor(exact + 0.5);
    const cents = Math.round(100 * (exact - number));
    if (Math.abs(cents) > 35) return `between ${named(Math.floor(exact))} and ${named(Math.floor(exact) + 1)}`;
    const name = named(number);
    if (cents === 0) return name;
    return `${name}, ${Math.abs(cents)} cent${Math.abs(cents) === 1 ? "" : "s"} ${cents > 0 ? "sharp" : "flat"}`;
  },

  /* test cut */
  cornerDoubt(step, spread, readings, contact) {
    finite(step, spread, readings, contact);
    need(readings >= 1, "at least one reading at each corner");
    return Math.hypot(step / Math.sqrt(12), spread / Math.sqrt(readings), contact / Math.sqrt(3));
  },
  cutTilt(frontTop, frontBottom, backTop, backBottom, height) {
    finite(frontTop, frontBottom, backTop, backBottom, height);
    need(Math.min(frontTop, frontBottom, backTop, backBottom, height) > 0, "every reading must be more than 0");
    return Math.atan2((frontTop + backTop - frontBottom - backBottom) / 2, height);
  },
  cutTaper(frontTop, frontBottom, backTop, backBottom, length) {
    finite(frontTop, frontBottom, backTop, backBottom, length);
    need(length > 0, "the length must be more than 0");
    return Math.atan2((backTop + backBottom - frontTop - frontBottom) / 2, length);
  },
  cutTwist(frontTop, frontBottom, backTop, backBottom) {
    return (frontTop - frontBottom - backTop + backBottom) / 4;
  },
  twistMatters(twist, cornerDoubt) {
    finite(twist, cornerDoubt);
    need(cornerDoubt >= 0, "a doubt is 0 or more");
    return Math.abs(twist) > cornerDoubt;
  },
  turnedCutTilt(top, bottom, height) {
    finite(top, bottom, height);
    need(Math.min(top, bottom, height) > 0, "every reading must be more than 0");
    return Math.atan2((top - bottom) / 2, height);
  },
  tiltDoubt(cornerDoubt, height) {
    return cornerDoubt / height;
  },
  turnedCutDoubt(cornerDoubt, height) {
    return cornerDoubt / height / Math.sqrt(2);
  },
  turnedCutLimit(caliperDoubt, tolerance, height, side) {
    finite(caliperDoubt, tolerance, height);
    need(caliperDoubt >= 0 && tolerance > 0 && height > 0, "doubt, tolerance and height must be more than 0");
    const guard = 1.6449 * formulas.turnedCutDoubt(caliperDoubt / Math.sqrt(2), height);
    if (side === "adjust") return 2 * height * Math.tan(tolerance + guard);
    need(guard < tolerance, "no reading with these calipers could prove the tolerance");
    return 2 * height * Math.tan(tolerance - guard);
  },
  decide(reading, low, high, doubt) {
    finite(reading, low, high, doubt);
    need(doubt >= 0 && high >= low, "the limits are the wrong way round");
    const guard = 1.6449 * doubt;
    if (reading < low - guard || reading > high + guard) return "adjust";
    if (guard > 0 && 2 * guard >= high - low) return "instrument too coarse";
    return reading >= low + guard && reading <= high - guard ? "accept" : "cannot tell";
  },
  verdict(error, doubt, tolerance) {
    need(tolerance > 0, "the tolerance must be more than 0");
    return formulas.decide(error, -tolerance, tolerance, doubt);
  },
  stopBoltTurns(tilt, arm, pitch) {
    finite(tilt, arm, pitch);
    need(arm > 0 && pitch > 0, "stop bolt distance and pitch must be more than 0");
    need(Math.abs(tilt) < (10 * Math.PI) / 180, "more than 10 degrees is no fine adjustment");
    return (arm * Math.tan(tilt)) / pitch;
  },

  /* drift and straightedge */
  driftAngle(start, end, length) {
    finite(start, end, length);
    need(length > 0, "the length of the cut must be more than 0");
    return Math.atan2(end - start, length);
  },
  driftDoubt(offsetDoubt, length) {
    return (Math.sqrt(2) * offsetDoubt) / length;
  },
  fenceShift(angle, length) {
    finite(angle, length);
    need(Math.abs(angle) < (10 * Math.PI) / 180, "more than 10 degrees is no fine adjustment");
    return length * Math.tan(angle);
  },
  straightedgeDoubt(seat, contact, reading, distance) {
    finite(seat, contact, reading, distance);
    need(contact > 0 && distance > 0, "contact and distance must be more than 0");
    return Math.hypot((Math.sqrt(2) * seat) / contact, (Math.sqrt(2) * reading) / distance);
  },

  /* tension scale */
  fitScale(readings, loads) {
    need(readings.length >= 2 && readings.length === loads.length, "at least two readings");
    finite(...readings, ...loads);
    const n = readings.length;
    const meanR = readings.reduce((a, b) => a + b, 0) / n;
    const meanQ = loads.reduce((a, b) => a + b, 0) / n;
    const low = Math.min(...readings);
    const high = Math.max(...readings);
    need(high > low, "the readings must differ");
    let rq = 0;
    let rr = 0;
    readings.forEach((r, i) => {
      rq += (r - meanR) * (loads[i] - meanQ);
      rr += (r - meanR) ** 2;
    });
    const slope = rq / rr;
    need(slope > 0, "more pull must read higher on the scale");
    let left = 0;
    readings.forEach((r, i) => { left += (loads[i] - meanQ - slope * (r - meanR)) ** 2; });
    return { offset: meanQ - slope * meanR, slope, residual: n > 2 ? Math.sqrt(left / (n - 2)) : null, low, high };
  },
  scaleReading(fit, load) {
    const reading = (load - fit.offset) / fit.slope;
    const beyond = 0.2 * (fit.high - fit.low);
    need(reading >= fit.low - beyond && reading <= fit.high + beyond, "that lies too far beyond the measured readings");
    return reading;
  },
};

if (typeof window !== "undefined") window.sawside = { formulas, Refused };
