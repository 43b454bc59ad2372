/* What Python means by its words, for formulas that are translated from it: see generator/sawside/script.
   Where Python raises an error, a function here throws one too; nothing is passed on as NaN, Infinity or null unseen. */
"use strict";

(function () {
  /* A formula refuses what its method does not cover: which argument, its value in SI, and what it must be. */
  class Refused extends Error {
    constructor(name, value, mustBe) {
      super(mustBe === undefined ? name : `${String(name).replace(/_/g, " ")} is ${py.format(value, ".4g")}, but must be ${mustBe}`);
      this.argument = name;
      this.value = value;
      this.must_be = mustBe;
    }
  }

  /* A set of Python: few items, equal as Python has it, in the order in which they came. */
  class Bag {
    constructor(items) {
      this.items = [];
      items.forEach((item) => this.add(item));
    }
    add(item) {
      if (!this.items.some((one) => py.eq(one, item))) this.items.push(item);
    }
  }

  const wrong = (words) => { throw new Error(words); };
  const number = (x, words) => (Number.isNaN(x) ? wrong(words) : x);
  const finite = (x) => (Number.isFinite(x) ? x : wrong("a number grew too large"));
  const compare = (a, b) => {
    if (Array.isArray(a) && Array.isArray(b)) {
      for (let i = 0; i < Math.min(a.length, b.length); i += 1) if (!py.eq(a[i], b[i])) return compare(a[i], b[i]);
      return a.length - b.length;
    }
    const plain = (x) => (typeof x === "boolean" ? Number(x) : x);
    [a, b] = [plain(a), plain(b)];
    if (typeof a !== typeof b || !["number", "string"].includes(typeof a)) wrong("these cannot be put in order");
    if (a < b) return -1;
    if (a > b) return 1;
    return a === b ? 0 : NaN;
  };
  const chosen = (given, named, better) => {
    const items = given.length === 1 ? py.list(given[0]) : given;
    if (!items.length) return "default" in named ? named.default : wrong("there is nothing to choose from");
    const key = named.key || ((x) => x);
    return items.reduce((best, item) => (better(compare(key(item), key(best))) ? item : best));
  };
  const whole = (digits) => (digits === undefined || digits === null ? 0 : digits);

  const py = {
    truth(x) {
      if (x === null || x === undefined) return false;
      if (Array.isArray(x)) return x.length > 0;
      if (x instanceof Map) return x.size > 0;
      if (x instanceof Bag) return x.items.length > 0;
      return typeof x === "number" ? x !== 0 : Boolean(x);
    },
    eq(a, b) {
      if (a === b) return true;
      if (a == null || b == null) return a == b;
      if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((x, i) => py.eq(x, b[i]));
      if (a instanceof Bag && b instanceof Bag) return a.items.length === b.items.length && a.items.every((x) => py.has(b, x));
      if (a instanceof Map && b instanceof Map) return a.size === b.size && [...a].every(([k, v]) => b.has(k) && py.eq(v, b.get(k)));
      if (typeof a === "object" && a.constructor === b.constructor && a.constructor !== Map) return Object.keys(a).every((k) => py.eq(a[k], b[k]));
      return typeof a !== typeof b && (typeof a === "boolean" || typeof b === "boolean") ? Number(a) === Number(b) : false;
    },
    lt: (a, b) => compare(a, b) < 0,
    le: (a, b) => compare(a, b) <= 0,
    gt: (a, b) => compare(a, b) > 0,
    ge: (a, b) => compare(a, b) >= 0,
    and(...parts) { let x; for (const part of parts) { x = part(); if (!py.truth(x)) return x; } return x; },
    or(...parts) { let x; for (const part of parts) { x = part(); if (py.truth(x)) return x; } return x; },

    add(a, b) {
      if (typeof a === "number" && typeof b === "number") return a + b;
      if (typeof a === "string" && typeof b === "string") return a + b;
      if (Array.isArray(a) && Array.isArray(b)) return [...a, ...b];
      const plain = (x) => (typeof x === "boolean" ? Number(x) : typeof x === "number" ? x : wrong("these cannot be added"));
      return plain(a) + plain(b);
    },
    div: (a, b) => (b === 0 ? wrong("division by zero") : a / b),
    mod: (a, b) => (b === 0 ? wrong("division by zero") : ((a % b) + b) % b),
    floordiv: (a, b) => (b === 0 ? wrong("division by zero") : Math.floor(a / b)),
    pow(a, b) {
      if (a === 0 && b < 0) wrong("division by zero");
      const x = a ** b;
      return Number.isFinite(a) && Number.isFinite(b) ? finite(number(x, "no power of a negative number")) : x;
    },
    abs: (x) => Math.abs(typeof x === "number" || typeof x === "boolean" ? x : wrong("no number")),
    sqrt: (x) => (x < 0 ? wrong("no root of a negative number") : Math.sqrt(x)),
    asin: (x) => (Math.abs(x) > 1 ? wrong("no such angle") : Math.asin(x)),
    acos: (x) => (Math.abs(x) > 1 ? wrong("no such angle") : Math.acos(x)),
    atanh: (x) => (Math.abs(x) >= 1 ? wrong("outside the function") : Math.atanh(x)),
    log(x, base) {
      if (x <= 0) wrong("no logarithm of zero or less");
      return base === undefined ? Math.log(x) : Math.log(x) / Math.log(base);
    },
    log2: (x) => (x <= 0 ? wrong("no logarithm of zero or less") : Math.log2(x)),
    log1p: (x) => (x <= -1 ? wrong("no logarithm of zero or less") : Math.log1p(x)),
    exp: (x) => (Number.isFinite(x) ? finite(Math.exp(x)) : Math.exp(x)),
    expm1: (x) => (Number.isFinite(x) ? finite(Math.expm1(x)) : Math.expm1(x)),
    sinh: (x) => (Number.isFinite(x) ? finite(Math.sinh(x)) : Math.sinh(x)),
    cosh: (x) => (Number.isFinite(x) ? finite(Math.cosh(x)) : Math.cosh(x)),
    radians: (x) => x * (Math.PI / 180),
    degrees: (x) => x * (180 / Math.PI),
    copysign: (x, y) => (y < 0 || Object.is(y, -0) ? -Math.abs(x) : Math.abs(x)),
    isinf: (x) => x === Infinity || x === -Infinity,
    floor: (x) => (Number.isFinite(x) ? Math.floor(x) : wrong("no whole number")),
    ceil: (x) => (Number.isFinite(x) ? Math.ceil(x) : wrong("no whole number")),
    /* The exact sum, rounded once: partial sums that do not overlap (Shewchuk 1997, as Python's math.fsum). */
    fsum(items) {
      const parts = [];
      for (let x of py.list(items)) {
        let kept = 0;
        for (let y of parts) {
          if (Math.abs(x) < Math.abs(y)) [x, y] = [y, x];
          const high = x + y;
          const low = y - (high - x);
          if (low) { parts[kept] = low; kept += 1; }
          x = high;
        }
        parts.length = kept;
        parts.push(x);
      }
      let n = parts.length - 1;
      if (n < 0) return 0;
      let high = parts[n];
      let low = 0;
      while (n > 0) {
        const x = high;
        n -= 1;
        const y = parts[n];
        high = x + y;
        low = y - (high - x);
        if (low) break;
      }
      if (n > 0 && ((low < 0 && parts[n - 1] < 0) || (low > 0 && parts[n - 1] > 0))) {
        const y = low * 2;
        const x = high + y;
        if (y === x - high) high = x;
      }
      return high;
    },
    sum: (items) => py.list(items).reduce((a, b) => py.add(a, b), 0),
    /* Round half to even, by the number's exact digits. */
    round(x, digits) {
      if (!Number.isFinite(x)) return digits === undefined ? wrong("no whole number") : x;
      const n = whole(digits);
      if (n < 0) return py.round(x / 10 ** -n) * 10 ** -n;
      if (Math.abs(x) >= 1e21) return x;
      if (!Number.isInteger(x * 2 ** (n + 1)) || Number.isInteger(x * 2 ** n)) return Number(x.toFixed(n));
      const low = Math.floor(x * 10 ** n);  // a true tie: exactly half-way in the digits that are there
      return (low % 2 === 0 ? low : low + 1) / 10 ** n;
    },
    float(x) {
      const named = { inf: Infinity, "-inf": -Infinity, nan: NaN };
      if (typeof x !== "string") return Number(x);
      return x in named ? named[x] : number(Number(x), "no number");
    },
    int: (x) => (Number.isFinite(Number(x)) ? Math.trunc(Number(x)) : wrong("no whole number")),

    list(x) {
      if (Array.isArray(x)) return x;
      if (x instanceof Map) return [...x.keys()];
      if (x instanceof Bag) return [...x.items];
      return typeof x === "string" ? [...x] : wrong("nothing to go through");
    },
    set: (items) => new Bag(items === undefined ? [] : py.list(items)),
    dict: (pairs) => new Map(pairs === undefined ? [] : py.list(pairs)),
    len: (x) => py.list(x).length,
    any: (items) => py.list(items).some(py.truth),
    all: (items) => py.list(items).every(py.truth),
    next: (items, ...rest) => (items.length ? items[0] : rest.length ? rest[0] : wrong("there is no next one")),
    range(first, end, step = 1) {
      const [low, high] = end === undefined ? [0, first] : [first, end];
      return Array.from({ length: Math.max(0, Math.ceil((high - low) / step)) }, (_, i) => low + i * step);
    },
    reversed: (items) => [...py.list(items)].reverse(),
    enumerate: ([items, first], named) => py.list(items).map((item, i) => [i + (first ?? named.start ?? 0), item]),
    zip(lists, named) {
      const all = lists.map(py.list);
      if (named.strict && all.some((one) => one.length !== all[0].length)) wrong("lists of different length");
      return py.range(Math.min(...all.map((one) => one.length))).map((i) => all.map((one) => one[i]));
    },
    min: (given, named) => chosen(given, named, (order) => order < 0),
    max: (given, named) => chosen(given, named, (order) => order > 0),
    sorted([items], named) {
      const key = named.key || ((x) => x);
      const sign = named.reverse ? -1 : 1;
      return [...py.list(items)].sort((a, b) => sign * compare(key(a), key(b)));
    },
    has: (all, one) => (typeof all === "string" ? all.includes(one) : py.list(all).some((x) => py.eq(x, one))),
    at(all, i) {
      if (all instanceof Map) return all.has(i) ? all.get(i) : wrong(`there is no ${i}`);
      const items = py.list(all);
      const place = i < 0 ? items.length + i : i;
      return place in items ? items[place] : wrong("there is no item at this place");
    },
    put(all, i, x) {
      if (all instanceof Map) all.set(i, x);
      else all[i < 0 ? all.length + i : i] = x;
    },
    slice(all, from, to, step) {
      const items = typeof all === "string" ? all : py.list(all);
      if (step !== null && step !== 1) return step === -1 && from === null && to === null ? [...items].reverse() : wrong("a slice with a step");
      return items.slice(from ?? 0, to ?? items.length);
    },
    items: (x) => [...x],
    values: (x) => [...x.values()],
    keys: (x) => [...x.keys()],
    get: (x, key, none = null) => (x.has(key) ? x.get(key) : none),
    append: (x, one) => { x.push(one); return null; },
    add_item: (x, one) => { x.add(one); return null; },
    join: (between, items) => py.list(items).join(between),
    count: (items, one) => py.list(items).filter((x) => py.eq(x, one)).length,
    index(items, one) {
      const place = py.list(items).findIndex((x) => py.eq(x, one));
      return place < 0 ? wrong("it is not in the list") : place;
    },
    replace: (one, changes) => Object.assign(Object.create(Object.getPrototypeOf(one)), one, changes),

    str(x) {
      if (x === null || x === undefined) return "None";
      if (typeof x === "boolean") return x ? "True" : "False";
      return String(x);
    },
    /* The formats of Python that vocabulary.py names: g, f and d, with a count of digits and a sign. */
    format(x, spec) {
      if (typeof x === "string" && spec === "") return x;
      const [, plus, digits, kind] = /^(\+?)(?:\.(\d+))?([gfd]?)$/.exec(spec);
      const sign = plus && x >= 0 ? "+" : "";
      if (Number.isNaN(x)) return "nan";
      if (!Number.isFinite(x)) return x < 0 ? "-inf" : `${sign}inf`;
      if (kind === "d") return `${sign}${x}`;
      const n = digits === undefined ? 6 : Number(digits);
      if (kind === "f") return (x < 0 || Object.is(x, -0) ? "-" : sign) + Math.abs(py.round(x, n)).toFixed(n);
      if (kind === "" && digits === undefined) return sign + py.str(x);
      if (x === 0) return `${sign}0`;
      const shown = x.toExponential(Math.max(n, 1) - 1);
      const power = Number(shown.split("e")[1]);
      const bare = (text) => (text.includes(".") ? text.replace(/\.?0+$/, "") : text);
      if (power < -4 || power >= Math.max(n, 1)) {
        const size = String(Math.abs(power)).padStart(2, "0");
        return `${sign}${bare(shown.split("e")[0])}e${power < 0 ? "-" : "+"}${size}`;
      }
      return sign + bare(x.toFixed(Math.max(n, 1) - 1 - power));
    },
  };
  window.sawside = Object.assign(window.sawside || {}, { py, Refused, formulas: {} });
})();
