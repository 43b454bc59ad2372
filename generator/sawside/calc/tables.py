"""Published tables, in the unit they were printed in, with SI beside it and with how far each was seen.

Marks: read; read second-hand (in somebody's copy); memory (to be looked up before anybody relies on it); practice.
"""

import math
from dataclasses import dataclass

from sawside.calc.limits import OutsideMethod, not_negative, positive, require

INCH = 25.4e-3
FOOT_PER_MINUTE = 0.3048 / 60
POUND_FORCE = 4.4482216152605

#: Shape of a sawmill gullet: area over pitch times depth. A blade maker's technical page, name withheld (read).
GULLET_SHAPE = 1 / 1.75

#: How much looser sawdust lies than solid wood: Briggs, Forest Products Measurements, ch. 7, Table 7-1 (read).
SAWDUST_SWELLING = 2.50


@dataclass(frozen=True)
class RadiusRow:
    """One printed line of a minimum-radius table [in]."""

    table: str
    width_in: float
    radius_in: float

    @property
    def width(self) -> float:
        """Return the blade width [m]."""
        return self.width_in * INCH

    @property
    def radius(self) -> float:
        """Return the radius [m]."""
        return self.radius_in * INCH


#: Three independent tables (read); the two manuals are saw makers', names withheld.
RADIUS_TABLES = tuple(
    RadiusRow(table, width, radius)
    for table, rows in {
        "home-improvement article": (
            (1 / 8, 3 / 16),
            (3 / 16, 5 / 16),
            (1 / 4, 5 / 8),
            (3 / 8, 1.5),
            (1 / 2, 2.5),
            (3 / 4, 5.5),
            (1.0, 7.0),
        ),
        "saw maker's manual, 18 in saw": (
            (1 / 8, 1 / 8),
            (3 / 16, 3 / 8),
            (1 / 4, 5 / 8),
            (3 / 8, 1.25),
            (1 / 2, 2.5),
            (5 / 8, 3.75),
            (3 / 4, 5.5),
        ),
        "saw maker's manual, larger saw": (
            (1 / 4, 5 / 8),
            (3 / 8, 1.375),
            (1 / 2, 2.5),
            (5 / 8, 4.0),
            (3 / 4, 5.5),
            (1.0, 7.625),
            (1.25, 9.875),
        ),
    }.items()
    for width, radius in rows
)


def published_radius(blade_width: float) -> tuple[float, float]:
    """Return the least and the greatest radius the published tables print for a width.

    Takes: blade_width, one of the printed widths within 1 % [m]. Gives: least, greatest radius [m].
    Holds for: 1/8, 3/16, 1/4, 3/8, 1/2, 5/8, 3/4, 1 and 1 1/4 in. Source: RADIUS_TABLES (read).

    >>> [radius / INCH for radius in published_radius(0.375 * INCH)]
    [1.25, 1.5]
    """
    positive(blade_width=blade_width)
    radii = [row.radius for row in RADIUS_TABLES if abs(row.width / blade_width - 1) < 0.01]
    if not radii:
        raise OutsideMethod("blade_width", blade_width, "a width the tables print (1/8 to 1 1/4 in)")
    return min(radii), max(radii)


@dataclass(frozen=True)
class SpeedWindow:
    """A window of band speed as printed, in its unit, with the window in m/s."""

    work: str
    low: float
    high: float
    unit: str
    source: str
    mark: str

    @property
    def window(self) -> tuple[float, float]:
        """Return the window [m/s]."""
        factor = FOOT_PER_MINUTE if self.unit == "ft/min" else 1.0
        return self.low * factor, self.high * factor


SPEED_WINDOWS = (
    SpeedWindow("metal machines, whole range", 50, 1500, "ft/min", "US Navy, Machinery Repairman, saw bands", "read"),
    SpeedWindow("wood, shop saws", 13, 25, "m/s", "common practice, no source", "practice"),
    SpeedWindow(
        "wood, sawmill bands as tested",
        20,
        40,
        "m/s",
        "Moradpour et al., Drvna industrija, 2016, doi 10.5552/drind.2016.1433, abstract",
        "read",
    ),
    SpeedWindow("plastics", 5, 15, "m/s", "common practice, no source; slower if it melts", "practice"),
)

#: Work height [in] -> change of speed for bimetal bands; printed for 4 in work. Machinery's Handbook p. 1245 (read).
METAL_SPEED_BY_HEIGHT = ((0.25, 0.15), (0.75, 0.12), (1.25, 0.10), (4.0, 0.0), (8.0, -0.12))

#: Metal -> bimetal band speed in 4 in work with coolant [ft/min]. Machinery's Handbook p. 1245 (read).
METAL_SPEEDS = {"12L14": 425, "304 stainless": 120}


#: Thicknesses that band blades for wood are sold in, in thousandths of an inch. Common practice, no source.
TRADE_THICKNESSES = (14, 16, 18, 20, 22, 25, 28, 32, 35, 42, 50)
#: Two nominal sizes this near to each other are one size: 3/4 in and 19 mm, 1/2 in and 13 mm; our choice.
SAME_SIZE = 0.03


def trade_thickness(blade_thickness: float) -> float:
    """Return the trade size of a thickness where one is near, else the thickness itself.

    Takes: blade_thickness [m]. Gives: [m].
    Holds for: more than 0. Source: TRADE_THICKNESSES.

    >>> 1e3 * trade_thickness(0.5e-3), 1e3 * trade_thickness(0.508e-3), 1e3 * trade_thickness(0.6e-3)
    (0.508, 0.508, 0.6)
    """
    positive(blade_thickness=blade_thickness)
    size = min(TRADE_THICKNESSES, key=lambda mils: abs(mils * INCH / 1000 - blade_thickness)) * INCH / 1000
    return size if abs(size / blade_thickness - 1) <= SAME_SIZE else blade_thickness


def metal_band_speed(printed_speed: float, work_height: float, carbon_band: bool, dry_share: float) -> float:
    """Return the band speed for metal from the handbook's number and its corrections.

    v = v_print (1 + height change) (1/2 for a carbon-steel band) (1 - dry_share)
    Takes: printed_speed for 4 in work with coolant and a bimetal band [m/s]; work_height, one of the printed heights
    within 1 % [m]; carbon_band, yes or no; dry_share, 0 with coolant, 0.3 to 0.5 without [-]. Gives: speed [m/s].
    Holds for: the printed heights 1/4, 3/4, 1 1/4, 4, 8 in; a saw maker's chart differs at 1 1/4 in.
    Source: Machinery's Handbook, 31st ed., p. 1245 (read).

    >>> metal_band_speed(120 * FOOT_PER_MINUTE, 0.25 * INCH, False, 0.0) / FOOT_PER_MINUTE
    138.0
    """
    positive(printed_speed=printed_speed, work_height=work_height)
    require(dry_share == 0 or 0.3 <= dry_share <= 0.5, "dry_share", dry_share, "0, or 0.3 to 0.5")
    changes = [change for height, change in METAL_SPEED_BY_HEIGHT if abs(height * INCH / work_height - 1) < 0.01]
    if not changes:
        raise OutsideMethod("work_height", work_height, "a height the table prints: 1/4, 3/4, 1 1/4, 4 or 8 in")
    return printed_speed * (1 + changes[0]) * (0.5 if carbon_band else 1.0) * (1 - dry_share)


@dataclass(frozen=True)
class Species:
    """Wood at 12 % moisture: specific gravity, side hardness as printed [lbf] and [N], None where not printed."""

    name: str
    gravity: float
    hardness_lbf: int | None
    hardness_n: int | None


#: Wood Handbook FPL-GTR-282 (2021), Tables 5-3a and 5-3b (read second-hand in two copies). Averages of clear wood.
SPECIES = tuple(
    Species(*row)
    for row in (
        ("quaking aspen", 0.38, 350, 1600),
        ("western red cedar", 0.32, 350, None),
        ("basswood", 0.37, 410, 1800),
        ("baldcypress", 0.46, 510, 2300),
        ("yellow-poplar", 0.42, 540, 2400),
        ("red alder", 0.41, 590, 2600),
        ("Port-Orford cedar", 0.43, 630, None),
        ("Douglas-fir, interior west", 0.50, 660, 2900),
        ("Douglas-fir, coast", 0.48, 710, 3200),
        ("silver maple", 0.47, 700, None),
        ("bigleaf maple", 0.48, 850, None),
        ("red maple", 0.54, 950, None),
        ("sugar maple", 0.63, 1450, 6400),
        ("northern red oak", 0.63, 1290, 5700),
        ("white oak", 0.68, 1360, 6000),
        ("cherrybark oak", 0.68, 1480, None),
        ("American beech", 0.64, 1300, 5800),
        ("white ash", 0.60, 1320, 5900),
        ("green ash", 0.56, 1200, 5300),
        ("black ash", 0.49, 850, None),
        ("sweet birch", 0.65, 1470, None),
        ("paper birch", 0.55, 910, 4000),
        ("black locust", 0.69, 1700, None),
        ("black cherry", 0.50, None, 4200),
        ("American elm", 0.50, None, 3700),
        ("shagbark hickory", 0.72, None, 8400),
        ("sweetgum", 0.52, None, 3800),
        ("longleaf pine", 0.59, None, 3900),
        ("loblolly pine", 0.51, None, 3100),
        ("western hemlock", 0.45, None, 2400),
        ("western larch", 0.52, None, 3700),
        ("lodgepole pine", 0.41, None, 2100),
        ("jack pine", 0.43, None, 2500),
        ("Sitka spruce", 0.40, None, 2300),
        ("redwood, old growth", 0.40, None, 2100),
        ("balsam fir", 0.35, None, 1700),
        ("white fir", 0.39, None, 2100),
        ("Engelmann spruce", 0.35, None, 1750),
        ("grand fir", 0.37, None, 2200),
    )
)


def species(name: str) -> Species:
    """Return one wood of the table.

    Takes: name as in SPECIES. Gives: Species. Holds for: the listed woods. Source: SPECIES (read second-hand).

    >>> species("sugar maple").gravity
    0.63
    """
    for row in SPECIES:
        if row.name == name:
            return row
    raise OutsideMethod("name", math.nan, "a wood of the table")


def side_hardness(name: str) -> float:
    """Return the side hardness of a wood at 12 % moisture: the pound table's number turned, else the metric table's.

    lbf * 4.448, or N as printed
    Takes: name as in SPECIES. Gives: force to press a ball half way in [N].
    Holds for: the listed woods. Pounds go first: they are printed to 10 lbf, newtons to 100 N. Source: SPECIES (read
    second-hand).

    >>> side_hardness("red maple"), side_hardness("black cherry")
    (4225.8, 4200.0)
    """
    row = species(name)
    return row.hardness_lbf * POUND_FORCE if row.hardness_lbf is not None else float(row.hardness_n or 0)


def strength_at_moisture(strength_12: float, strength_green: float, moisture: float, intersection_moisture: float) -> float:
    """Return a strength of clear wood at a moisture content between 12 % and green.

    P = P12 (P12 / Pg)^((12 - M) / (Mp - 12))
    Takes: strength_12, strength_green, same unit; moisture M, intersection_moisture Mp [%]. Gives: that unit.
    Holds for: M up to Mp (24 % for ash), Mp above 12. Source: Wood Handbook FPL-GTR-282 (2021), eq. 5-3 (read
    second-hand).

    >>> strength_at_moisture(103000, 66000, 8, 24)
    119472.6
    """
    positive(strength_12=strength_12, strength_green=strength_green)
    require(intersection_moisture > 12, "intersection_moisture", intersection_moisture, "more than 12")
    require(0 <= moisture <= intersection_moisture, "moisture", moisture, "0 to intersection_moisture")
    return strength_12 * (strength_12 / strength_green) ** ((12 - moisture) / (intersection_moisture - 12))


#: DIN 875-1 grades: constant [um] and length [mm] over which one more um is allowed.
SQUARE_GRADES = {"grade 00": (2, 100), "grade 0": (5, 50), "grade 1": (10, 20), "grade 2": (20, 10)}


def square_error_limit(grade: str, square_length: float) -> float:
    """Return how far the blade of a square may be off at its end.

    t = 2 + L/100, 5 + L/50, 10 + L/20, 20 + L/10 micrometres for grades 00, 0, 1, 2, L in mm
    Takes: grade; square_length L [m]. Gives: limit [m].
    Holds for: 40 to 1000 mm; the printed extract rounds up to whole micrometres and its 750 mm row does not follow the
    formula in grades 1 and 2. Source: DIN 875 extract in a metrology dealer's lexicon (read second-hand); the formula
    itself (memory).

    >>> square_error_limit("grade 2", 150e-3) * 1e6
    35.0
    """
    if grade not in SQUARE_GRADES:
        raise OutsideMethod("grade", math.nan, "one of " + ", ".join(SQUARE_GRADES))
    require(0.04 <= square_length <= 1.0, "square_length", square_length, "0.04 to 1 m")
    constant, per = SQUARE_GRADES[grade]
    return (constant + square_length * 1e3 / per) * 1e-6


#: DIN 876 plates: constant [um] and length [mm] over which one more um is allowed (read in two dealers' copies).
PLATE_GRADES = {"grade 0": (4, 250), "grade I": (10, 100), "grade II": (20, 50), "grade III": (40, 25)}


def plate_flatness_limit(grade: str, plate_length: float) -> float:
    """Return how far a surface plate may be out of flat.

    t = 4 + L/250, 10 + L/100, 20 + L/50, 40 + L/25 micrometres for grades 0, I, II, III, L in mm
    Takes: grade; plate_length L [m]. Gives: limit [m]. Holds for: 0.1 to 2.5 m. Source: DIN 876 in two dealers'
    copies (read).

    >>> plate_flatness_limit("grade I", 500e-3) * 1e6
    15.0
    """
    if grade not in PLATE_GRADES:
        raise OutsideMethod("grade", math.nan, "one of " + ", ".join(PLATE_GRADES))
    require(0.1 <= plate_length <= 2.5, "plate_length", plate_length, "0.1 to 2.5 m")
    constant, per = PLATE_GRADES[grade]
    return (constant + plate_length * 1e3 / per) * 1e-6


#: 29 CFR 1910.95, Table G-16 (read): hours a day, sound level dBA.
NOISE_TABLE = ((8, 90), (6, 92), (4, 95), (3, 97), (2, 100), (1.5, 102), (1, 105), (0.5, 110), (0.25, 115))


def noise_time(sound_level: float) -> float:
    """Return how long a day a sound level is allowed without other measures.

    T = 8 h / 2^((L - 90) / 5)
    Takes: sound_level L, slow response [dBA]. Gives: time [s].
    Holds for: 80 to 115 dBA. The table rounds to whole or half hours. Source: 29 CFR 1910.95, Table G-16 (read).

    >>> noise_time(95) / 3600
    4.0
    """
    require(80 <= sound_level <= 115, "sound_level", sound_level, "80 to 115 dBA")
    return 8 * 3600 / 2 ** ((sound_level - 90) / 5)


#: Reading distance over letter height, favourable light. ANSI Z535, clause 9.2.3 as quoted by a supplier (second-hand).
SIGNAL_WORD_DISTANCE, MESSAGE_DISTANCE = 150, 300


def letter_height(reading_distance: float, distance_ratio: float) -> float:
    """Return how tall capital letters have to be.

    h = D / ratio
    Takes: reading_distance D [m]; distance_ratio, 150 for the signal word, 300 for the message [-]. Gives: height [m].
    Holds for: good light; twice as tall in poor light. Source: ANSI Z535, clause 9.2.3 (read second-hand).

    >>> letter_height(1.0, MESSAGE_DISTANCE) * 1e3
    3.333
    """
    not_negative(reading_distance=reading_distance)
    positive(distance_ratio=distance_ratio)
    return reading_distance / distance_ratio
