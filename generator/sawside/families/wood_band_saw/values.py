"""Every value computed for a wood band saw: one visible tuple, each entry a pure function wired by argument name."""

from sawside.calc import band, cutting, geometry, guides, radius, stiffness, strand
from sawside.model import ValueSpec

MM = 1e-3
QUARTER_INCH = 0.25 * 0.0254


def push_for_5_mm(free_span: float, strand_force: float, body_width: float, blade_thickness: float, youngs_modulus: float) -> float:
    """Return the push [N] that moves the middle of the free strand by 5 mm; see strand.push_for_deflection."""
    return strand.push_for_deflection(5 * MM, free_span, strand_force, body_width, blade_thickness, youngs_modulus)


def push_for_quarter_inch(
    free_span: float, strand_force: float, body_width: float, blade_thickness: float, youngs_modulus: float
) -> float:
    """Return the push [N] that moves the middle of the free strand by 1/4 in; see strand.push_for_deflection."""
    return strand.push_for_deflection(QUARTER_INCH, free_span, strand_force, body_width, blade_thickness, youngs_modulus)


WHEELS = "Wheels and length"
BLADE = "This blade"
TENSION = "Tension"
GUIDES = "Guides"
TRACK = "Tracking"
STORE = "Storing"
JOB = "The job"

VALUES = (
    ValueSpec("loop_length", "Way round the wheels", geometry.loop_length, "blade_length", "L", group=WHEELS,
              sources=("navy_band_length", "belt_formula")),
    ValueSpec("free_span", "Free strand between the wheels", geometry.free_span, "blade_length", "S", group=WHEELS,
              sources=("belt_formula",)),
    ValueSpec("blade_length_shortest", "Shortest blade that goes on", geometry.blade_length_shortest, "blade_length", "L_min",
              group=WHEELS, rounding="up", sources=("navy_band_length",)),
    ValueSpec("blade_length_longest", "Longest blade that can be tensioned", geometry.blade_length_longest, "blade_length",
              "L_max", group=WHEELS, rounding="down", sources=("navy_band_length",)),
    ValueSpec("rated_length_gap", "Maker's length minus way round", geometry.rated_length_gap, "blade_length", "dL", group=WHEELS,
              sources=("derived",)),
)
