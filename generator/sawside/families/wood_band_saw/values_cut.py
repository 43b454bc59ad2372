"""Values of guides, feed, teeth, curves, table and fence. How to read an entry: see values.py."""

from sawside.calc import feed, guides, pitch, radius, stiffness
from sawside.families.wood_band_saw import formulas_cut
from sawside.families.wood_band_saw.values_saw import GUESSED
from sawside.model import ValueSpec as V

GUIDES, FEED, PROOF, JOB = "Guides", "Feed the blade stands", "Test cut, table and fence", "Teeth and curves"

#: How fast the pull makes a blade on edge forget how its ends are held.
_EDGE = "sqrt(12 * strand_force / (youngs_modulus * blade_thickness * body_width**3))"

CUT = (
    V("guide_margin", "Side guides behind the gullets", guides.guide_margin, "gap", "m", group=GUIDES, rounding="up"),
    V("guide_setback", "Side guides behind the tooth tips", guides.guide_setback, "small_length", "s", group=GUIDES,
      guessed=GUESSED,
      rounding="up"),
    V("guide_span", "Span between upper and lower guides", stiffness.guide_span, "work_size", "L_g",
      takes={"work_height": "usual_work_height"}, group=GUIDES),
    V("guide_span_100_mm_too_high", "Span between the guides, upper guides 100 mm too high",
      stiffness.guide_span_100_mm_too_high,
      "work_size",
      "L_h", group=GUIDES, equation="guide_span + mm(100)"),
    V("tip_stiffness", "Side stiffness at the teeth", stiffness.tip_stiffness, "stiffness", "k", group=GUIDES),
    V("tip_stiffness_100_mm_too_high", "Side stiffness at the teeth, upper guides 100 mm too high",
      stiffness.tip_stiffness_100_mm_too_high,
      "stiffness", "k_h", group=GUIDES),
    V("stiffness_lost", "Stiffness lost with the upper guides 100 mm too high", stiffness.stiffness_lost, "percent", "q",
      group=GUIDES),
    V("guide_yaw", "Turn of the blade inside the side guides", formulas_cut.guide_yaw, "angle", "psi", group=GUIDES,
      rounding="up",
      equation="asin((blade_thickness + 2 * side_clearance) / sqrt(side_guide_contact**2 + blade_thickness**2))"
                              " - atan(blade_thickness / side_guide_contact)"),
    V("tip_travel", "Play of a tooth tip inside the guides, to each side", guides.tip_travel, "gap", "z", group=GUIDES,
      rounding="up"),
    V("weld_verdict", "Does the weld pass the side guides", formulas_cut.weld_verdict, "word", group=GUIDES),

    V("edge_slack_floor", "Feed that takes the pull off the teeth", stiffness.edge_slack_floor, "force", "P_s",
      group=FEED,
      rounding="down",
      equation=f"strand_force * body_width / 3 * {_EDGE} / tanh({_EDGE} * guide_span / 2)"),
    V("buckling_load", "Feed at which the blade gives way sideways", stiffness.buckling_load, "force", "P_cr",
      group=FEED,
      rounding="down"),
    V("feed_limit", "Feed force the blade stands, not one to aim at", stiffness.feed_limit, "force", "P_max",
      group=FEED, rounding="down"),
    V("bow_at_slack", "Bow of the blade back at that feed", formulas_cut.bow_at_slack, "gap", "y", group=FEED,
      rounding="up",
      equation="edge_slack_floor * guide_span / (4 * strand_force)"
               f" * (1 - tanh({_EDGE} * guide_span / 2) / ({_EDGE} * guide_span / 2))"),
    V("guide_margin_needed", "Least distance of the side guides behind the gullets", formulas_cut.guide_margin_needed, "gap",
      "m_min",
      group=FEED, rounding="up"),
    V("guide_margin_verdict", "Do the guides stay clear of the gullets", formulas_cut.guide_margin_verdict, "word",
      group=FEED),

    V("piece_height", "Least height of a test piece cut once", formulas_cut.piece_height, "work_size", "H", group=PROOF,
      rounding="up",
      equation="1.6449 * caliper_doubt / (square_tolerance / 2)"),
    V("piece_height_turned", "Least height of a test piece turned and cut twice", formulas_cut.piece_height_turned,
      "work_size", "H_2",
      group=PROOF, rounding="up", equation="1.6449 * caliper_doubt / (sqrt(2) * square_tolerance / 2)"),
    V("test_height", "Height between the readings on the test piece", formulas_cut.test_height, "work_size", "H_t",
      group=PROOF),
    V("square_accept", "Square: accept up to a difference of", formulas_cut.square_accept, "gap", "d_a", group=PROOF,
      rounding="down",
      equation="2 * test_height * tan(square_tolerance - 1.6449 * caliper_doubt / (2 * test_height))"),
    V("square_adjust", "Square: adjust above a difference of", formulas_cut.square_adjust, "gap", "d_b", group=PROOF,
      rounding="up",
      equation="2 * test_height * tan(square_tolerance + 1.6449 * caliper_doubt / (2 * test_height))"),
    V("stop_turns_per_tenth", "Turns of the stop bolt for a tenth of a degree",
      formulas_cut.stop_turns_per_tenth, "turns", "N_b",
      group=PROOF, equation="table_stop_arm * tan(pi / 1800) / table_stop_pitch"),
    V("fence_shift_per_degree", "Shift of the fence's fixing for one degree", formulas_cut.fence_shift_per_degree,
      "gap_wide", "d_f", group=PROOF, equation="fence_length * tan(pi / 180)"),

    V("minimum_radius", "Tightest curve", radius.minimum_radius, "radius", "R", group=JOB, rounding="up"),
    V("minimum_radius_basis", "How the tightest curve is known", radius.minimum_radius_basis, "word", group=JOB),
    V("comfortable_radius", "Comfortable curve", radius.comfortable_radius, "radius", "R_8", group=JOB,
      rounding="up"),
    V("teeth_in_work_least", "Teeth in the thinnest work", pitch.teeth_in_work_least, "ratio", "z_min", group=JOB),
    V("teeth_in_work_most", "Teeth in the thickest work", pitch.teeth_in_work_most, "ratio", "z_max", group=JOB),
    V("pitch_coarsest", "Coarsest pitch", pitch.pitch_coarsest, "pitch", "p_max", group=JOB),
    V("pitch_finest", "Finest pitch for sheet and metal", pitch.pitch_finest, "pitch", "p_min", group=JOB),
    V("feed_by_gullet", "Feed the gullets can clear", feed.feed_at_gullet_fill, "feed", "v_f",
      takes={"gullet_fill_most": "gullet_fill", "work_height": "work_height_max", "gullet_depth": "gullet"},
      group=JOB, rounding="down",
      equation="gullet_fill_most * gullet_shape * gullet_depth * band_speed / work_height"),
    V("feed_by_power", "Feed the motor's power allows", formulas_cut.feed_by_power, "feed", "v_P", group=JOB,
      rounding="down",
      equation="max(0, drive_efficiency * (motor_power - idle_power) / (kerf * work_height_max)"
               " - rubbing_force * band_speed / tooth_pitch) / cutting_stress"),
    V("feed_governed_by", "Which limit allows the least feed", formulas_cut.feed_governed_by, "word", group=JOB),
)
