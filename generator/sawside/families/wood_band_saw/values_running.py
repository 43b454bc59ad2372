"""Values of the running blade: wear by bending, heat, wheels that run out, what shakes it. See values.py."""

from sawside.calc import fatigue, vibration
from sawside.families.wood_band_saw import formulas_running as formulas
from sawside.model import ValueSpec as V

WEAR, HEAT, SHAKING = "Wear by bending, for comparison only", "Heat and run-out", "Running"

RUNNING = (
    V("inertia_stress", "Stress from running round the wheels", vibration.inertia_stress, "stress", "sigma_v",
      group=SHAKING),
    V("wave_speed", "Critical speed of the band", vibration.wave_speed, "speed", "c", group=SHAKING, rounding="down"),
    V("running_frequency", "Tone of the running strand", vibration.running_frequency, "frequency", "f_v",
      takes={"span": "free_span"}, group=SHAKING),
    V("weld_frequency", "How often the weld comes by", vibration.weld_frequency, "frequency", "f_w", group=SHAKING),
    V("tooth_frequency", "How often a tooth comes by", vibration.tooth_frequency, "frequency", "f_t", group=SHAKING),
    V("harmonic_advice", "Running tone against wheels and weld", formulas.harmonic_advice, "word", group=SHAKING),

    V("bends_per_hour", "Bends of each spot in an hour", formulas.bends_per_hour, "count_large", "B_h", group=WEAR,
      equation="h(1) * 2 * band_speed / blade_length"),
    V("stress_amplitude", "Swing of the stress at the surface", fatigue.stress_amplitude, "stress", "sigma_a",
      group=WEAR),
    V("stress_mean", "Mean stress at the surface", fatigue.stress_mean, "stress", "sigma_m",
      takes={"target_stress": "setting_stress"}, group=WEAR),
    V("stress_peak", "Highest stress at the surface", fatigue.stress_peak, "stress", "sigma_p",
      takes={"target_stress": "setting_stress"}, group=WEAR,
      rounding="up"),
    V("surface_factor", "Surface factor", fatigue.surface_factor, "ratio", "k_a", group=WEAR,
      equation="1.58 * (steel_strength / MPa(1))**-0.085"),
    V("endurance_limit", "Endurance limit of the back", fatigue.endurance_limit, "stress", "S_e", group=WEAR,
      rounding="down", equation="min(steel_strength / 2, MPa(700)) * surface_factor * reliability_factor"),
    V("goodman_factor", "Reserve to the Goodman line", fatigue.goodman_factor, "ratio", "n_G", group=WEAR,
      rounding="down",
      note="for comparing blades only; below 1 cracks are expected in the end"),
    V("bending_compared", "Bends it stands, against a blade that is thin enough", formulas.bending_compared, "word",
      takes={"target_stress": "setting_stress"}, group=WEAR),

    V("heat_loss", "Tension lost when the blade warms", formulas.heat_loss, "stress", "sigma_T", group=HEAT,
      rounding="up",
      equation="steel_expansion * blade_warming * blade_length * loop_rate / body_area"),
    V("heat_loss_rigid", "Tension lost when the blade warms, no tension spring",
      formulas.heat_loss_rigid, "stress", "sigma_R",
      group=HEAT,
      rounding="up", equation="youngs_modulus * steel_expansion * blade_warming"),
    V("edge_heat_loss", "Tension the teeth lose when they alone warm", formulas.edge_heat_loss, "stress", "sigma_E",
      group=HEAT, rounding="up", equation="youngs_modulus * steel_expansion * blade_warming / 2"),
    V("run_out_swing", "Swing of the tension from run-out", formulas.run_out_swing, "stress", "sigma_r", group=HEAT,
      rounding="up", equation="radial_run_out * loop_rate / body_area"),
)
