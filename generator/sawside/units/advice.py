"""The one place where refusals are worded: what is wrong with a written quantity, and what to write instead."""

import re
from difflib import get_close_matches
from fractions import Fraction

from sawside.units.names import METRIC, UNITS, WORDS, quantities_of, spelled
from sawside.units.refusal import LETTERS_IN_NUMBER, NotUnderstood, digits

#: Names people write for a unit that exist but mean something else or more than one thing -> what to say.
_MISTAKEN = {
    "mil": "`mil` means a thousandth of an inch to some and a millimetre to others: write thou or mm",
    "mils": "`mils` means thousandths of an inch to some and millimetres to others: write thou or mm",
    "/in": "teeth per inch are written for example: 6 tpi",
    "Hz": "a plate gives the frequency of the mains in Hz; the speed of rotation stands in rpm, for example: 850 rpm",
}
#: Units written out, rightly or nearly so -> the sign to write.
_WRITTEN_OUT = {
    "millimetres": "mm",
    "millimeters": "mm",
    "centimetres": "cm",
    "centimeters": "cm",
    "metres": "m",
    "meters": "m",
    "micrometres": "um",
    "micrometers": "um",
    "inches": "in",
    "inch": "in",
    "feet": "ft",
    "newtons": "N",
    "kilonewtons": "kN",
    "watts": "W",
    "kilowatts": "kW",
    "horsepower": "hp",
    "degrees": "deg",
    "pascals": "Pa",
    "kilopascals": "kPa",
    "megapascals": "MPa",
    "gigapascals": "GPa",
    "lbs": "lbf",
    "pounds": "lbf",
    "U/min": "rpm",
    "upm": "rpm",
}
#: (quantity wanted, unit name written) -> the unit that was meant.
_MEANT = {("mass", "kgf"): "kg", ("mass", "lbf"): "lb", ("stress", "N/mm"): "N/mm2"}
#: Every character that is a fraction by itself.
FRACTION_SIGNS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
_COMMA = re.compile(r"([-+]?[0-9]+),([0-9]+)(.*)", re.DOTALL)
_NAMES_IN_EXAMPLES = re.compile(r"[0-9] ([^ ]+)")
_DOUBT_SIGN = "+/-"
_DOUBT = "write how far off the value may be, for example: 0.65 mm +/- 0.02 mm"


def example(takes: str) -> str:
    """Return the end of every hint that has nothing better to say.

    >>> example("angle")
    'write for example: 0.1 deg'
    """
    return f"write for example: {WORDS[takes][2]}"


def no_number(text: str, at: int, takes: str) -> NotUnderstood:
    """Return the refusal of a text that does not begin with a number."""
    if not text:
        return NotUnderstood("there is no value", example(takes), at, 1)
    about = re.match(r"(?:~|≈|ca\b\.?|circa\b|about\b|approx\b\.?)\s*(?=[0-9.])", text, re.IGNORECASE)
    hint = f"write {text[about.end() :]}, and if you like how far off it may be after +/-" if about else example(takes)
    if LETTERS_IN_NUMBER.match(text):
        hint = digits(text)
    return NotUnderstood(f"`{text}` does not begin with a number", hint, at, len(text))


def doubt(part: str, at: int) -> NotUnderstood:
    """Return the refusal of `+/-` without a plain number after it."""
    return NotUnderstood(f"`{part}` is not a doubt: a plain number with its unit must follow the sign", _DOUBT, at, len(part))


def check_both_units(first: str, second: str, at: int, second_at: int) -> None:
    """Refuse a value or a doubt without unit where the other has one, showing the full text.

    >>> check_both_units("0.65 mm", "0.02", 0, 12)
    Traceback (most recent call last):
    sawside.units.refusal.NotUnderstood: the doubt `0.02` has no unit
    """
    units = [(re.findall(r"(?:[^\W\d_]\S*(?: pitch)?|[^\w\s.])$", part) or [""])[0] for part in (first, second)]
    if first and second and units[0] and not units[1]:
        raise NotUnderstood(f"the doubt `{second}` has no unit", f"write {first} +/- {second} {units[0]}", second_at, len(second))
    if first and second and units[1] and not units[0]:
        raise NotUnderstood(f"`{first}` has no unit", f"write {first} {units[1]} +/- {second}", at, len(first))


def improper(text: str, value: Fraction, unit: str, at: int) -> NotUnderstood:
    """Return the refusal of 3/2, 4/4 and 0/2, with the number as a ruler shows it."""
    return NotUnderstood(f"`{text}` is not how a ruler is read", f"write {mixed(value)} {unit}".rstrip(), at, len(text))


def mixed(value: Fraction) -> str:
    """Return a fraction as a ruler shows it.

    >>> mixed(Fraction(3, 2)), mixed(Fraction(1, 4)), mixed(Fraction(2))
    ('1 1/2', '1/4', '2')
    """
    whole, part = divmod(value, 1)
    return " ".join(str(n) for n in (whole, part) if n) or "0"


def metric_fraction(text: str, value: Fraction, unit: str, at: int) -> NotUnderstood:
    """Return the refusal of 1 1/2 mm: fractions go with inches, and such a text often has the wrong unit."""
    return NotUnderstood(
        f"`{text}` is a fraction with a metric unit",
        f"write {float(value):g} {unit}, or check whether inches were meant",
        at,
        len(text),
    )


def mixed_pitch(text: str, at: int) -> NotUnderstood:
    """Return the refusal of 6/10 tpi and 5 1/2 tpi, where the slash may stand for a mixed pitch."""
    return NotUnderstood(
        f"`{text}` may be a fraction or a mixed pitch",
        "write one decimal number; with a mixed pitch count the teeth in 25.4 mm (1 in), for example: 5.5 tpi",
        at,
        len(text),
    )


def other_quantity(text: str, name: str, at: int, takes: str) -> NotUnderstood:
    """Return the refusal of a known unit that belongs to another quantity, saying to which."""
    meant = _MEANT.get((takes, name))
    number = text[: len(text) - len(name)].rstrip()
    hint = f"write {number} {meant} if that is what was meant" if meant else example(takes)
    is_what = WORDS[quantities_of(name)[0]][0]
    return NotUnderstood(f"`{text}` is {is_what}", hint, at, len(text))


def no_unit(text: str, written: str, at: int, takes: str) -> NotUnderstood:
    """Return the refusal of what follows the number: nothing, a comma, a gap, a range, or a word that is no unit."""
    if not written:
        offered = " or ".join(f"{text} {name}" for name in _usual(text, takes))
        return NotUnderstood(f"`{text}` has no unit", f"write {offered}", at, len(text))
    for rule in (_comma, _gap, _spread, _range, _doubt_sign, _second, _lookalike):
        found = rule(text, written, at)
        if found:
            return found
    if found := _behind(text, written, at, takes):
        return found
    name, start = spelled(written), at + len(text.rstrip()) - len(written)
    if name in _MISTAKEN:
        return NotUnderstood(f"`{written}` is not clear", _MISTAKEN[name], start, len(written))
    plain = name.rstrip(".,;!?").casefold()
    near = [known for known in UNITS[takes] if known.casefold() == plain] or _meant(name, takes)
    hint = f"write {near[0]}" if near else f"units for {WORDS[takes][0]}: {', '.join(_plain(takes))}"
    return NotUnderstood(f"`{written}` is not a unit known here", hint, start, len(written))


def _usual(text: str, takes: str) -> list[str]:
    """Return the units to offer for a bare number: those of the quantity's example, no metric one for a fraction."""
    fraction = re.search(f"[/\u2044{FRACTION_SIGNS}]", text)
    if takes == "pitch":
        return ["in pitch"] if fraction else ["tpi", "mm pitch"]
    names = _NAMES_IN_EXAMPLES.findall(WORDS[takes][2])
    return [name for name in names if not fraction or UNITS[takes][name].system != METRIC] or names


def _plain(takes: str) -> list[str]:
    """Return the names of a quantity's units, one spelling each.

    >>> _plain("pitch"), _plain("power")
    (['tpi', 'mm', 'mm pitch', 'in', 'in pitch'], ['W', 'kW', 'hp'])
    """
    if takes == "pitch":
        return ["tpi", "mm", "mm pitch", "in", "in pitch"]
    return list({unit: name for name, unit in reversed(UNITS[takes].items())}.values())[::-1]


def _comma(text: str, written: str, at: int) -> NotUnderstood | None:
    if not written.startswith(","):
        return None
    found = _COMMA.fullmatch(text)
    before, after, rest = found.groups() if found else ("", "", ",")
    if "," in rest or rest.startswith("."):
        return NotUnderstood(
            f"`{text}` has a comma", "write one number with a point and no comma, for example: 1925.5 mm", at, len(text)
        )
    if len(after) == 3 and before.strip("-+0") and len(before.strip("-+")) <= 3:
        return NotUnderstood(
            f"the comma in `{text}` can be read in two ways",
            f"write {before}{after}{rest} or {before}.{after}{rest}",
            at,
            len(text),
        )
    return NotUnderstood(f"`{text}` has a comma", f"write {before}.{after}{rest}", at, len(text))


def _gap(text: str, written: str, at: int) -> NotUnderstood | None:
    if not written[0].isdigit():
        return None
    tight = re.sub(r"(?<=[0-9])\s+(?=[0-9]{3}(?![0-9/]))", "", text)
    hint = f"write {tight}" if tight != text else "write one number, for example: 1500 mm or 1 1/2 in"
    return NotUnderstood(f"`{text}` has more than one number", hint, at, len(text))


def _spread(text: str, written: str, at: int) -> NotUnderstood | None:
    if written[0] not in "/\u2044" or not re.match(r"[/\u2044]\s*[0-9]", written):
        return None
    tight = re.sub(r"\s*[/\u2044]\s*", "/", text, count=1)
    return NotUnderstood(f"`{text}` has a gap in its fraction", f"write it as a ruler is read, for example: {tight}", at, len(text))


def _range(text: str, written: str, at: int) -> NotUnderstood | None:
    if not re.match(r"(?:[-\u2010-\u2014~+]|to\b|\.\.)\s*[0-9]", written):
        return None
    if re.search("tpi|teeth", written.lower()):
        return mixed_pitch(text, at)
    return NotUnderstood(
        f"`{text}` has more than one number",
        "write one value; its doubt may follow after +/-, for example: 0.65 mm +/- 0.02 mm",
        at,
        len(text),
    )


def _second(text: str, written: str, at: int) -> NotUnderstood | None:
    """Refuse a point too many, and a unit with another number after it."""
    if written.startswith("."):
        return NotUnderstood(f"`{text}` has a point too many", "write for example: 1.5 mm", at, len(text))
    found = re.match(f"([^0-9{FRACTION_SIGNS}]+?)[ +x*]*[0-9{FRACTION_SIGNS}]", written)
    if not found or not quantities_of(spelled(found[1])):
        return None
    return NotUnderstood(
        f"`{text}` has more than one number",
        "write one number and one unit; only feet and inches may stand together, for example: 5 ft 3 1/2 in",
        at,
        len(text),
    )


def _doubt_sign(text: str, written: str, at: int) -> NotUnderstood | None:
    """Refuse a value with something like +/- that is not the sign."""
    found = re.search(r"\s*(?:\+-|-\+|\+ / ?-|\+/ -|-/\+|\+\\-)\s*(?=[0-9])", text)
    if not found:
        return None
    hint = f"write {text[: found.start()]} +/- {text[found.end() :]}"
    return NotUnderstood(f"`{text}` has no doubt that can be read", hint, at, len(text))


def _lookalike(text: str, written: str, at: int) -> NotUnderstood | None:
    if not LETTERS_IN_NUMBER.match(text):
        return None
    return NotUnderstood(f"`{text}` has a letter among its digits", digits(text), at, len(text))


def _behind(text: str, written: str, at: int, takes: str) -> NotUnderstood | None:
    """Refuse words and brackets behind a unit that is right: `6 TPI skip`, `750 W (1 hp)`.

    >>> _behind("6 TPI skip", "TPI skip", 0, "pitch").hint
    'write 6 TPI; anything more goes into its own line, or behind a # as a note'
    """
    cuts = [found.start() for found in re.finditer(r"\s*[\s(\[,;:=/]\s*", written) if found.start()]
    cut = next((cut for cut in reversed(cuts) if spelled(written[:cut]) in UNITS[takes]), 0)
    if not cut or _DOUBT_SIGN in written:
        return None
    plain, more = text.rstrip()[: cut - len(written)], written[cut:].strip()
    hint = f"write {plain}; anything more goes into its own line, or behind a # as a note"
    if re.search("[0-9]", more):
        hint = f"write {plain}; one unit is enough"
    what, start = f"there is more than a number and its unit: `{more}`", at + len(text.rstrip()) - len(more)
    return NotUnderstood(what, hint, start, len(more))


def _meant(name: str, takes: str) -> list[str]:
    """Return the unit whose written-out name is near, if the quantity has it.

    >>> _meant("milimetre", "length"), _meant("inchs", "length"), _meant("furlong", "length")
    (['mm'], ['in'], [])
    """
    near = get_close_matches(name, _WRITTEN_OUT, n=1, cutoff=0.8)
    # a prefix more, less or another is a power of ten: only slips behind the first letters are taken for slips
    return [_WRITTEN_OUT[found] for found in near if found[:3] == name[:3] and _WRITTEN_OUT[found] in UNITS[takes]]
