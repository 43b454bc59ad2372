"""Cutting energy, force and power, what one timed cut tells, and which limit governs the feed.

The two constants of wood, K and F0, are arguments without a value: published ones fit other saws and other wood. One
timed cut with a power meter gives the saw's own.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from sawside.calc.limits import OutsideMethod, not_negative, positive, require


def cutting_energy(bite: float, cutting_stress: float, rubbing_force: float) -> float:
    """Return the energy to turn a volume of wood into dust.

    u = K + F0 / f
    Takes: bite f [m]; cutting_stress K [Pa]; rubbing_force F0, per length of edge [N/m]. Gives: energy per volume [Pa].
    Holds for: f of 10 micrometres or more; below it the tooth rubs. Straight-line force against bite is the usual
    first model; constants differ by wood, moisture, edge and direction, and density alone is a rough guide (Chuchala
    et al., BioResources 9(3), 2014, abstract read). Source: derived from that model.

    >>> cutting_energy(40e-6, 40e6, 1200.0) / 1e6
    70.0
    """
    require(bite >= 10e-6, "bite", bite, "1e-05 m or more: below that a tooth rubs")
    not_negative(cutting_stress=cutting_stress, rubbing_force=rubbing_force)
    return cutting_stress + rubbing_force / bite


def cutting_power(
    feed_speed: float,
    band_speed: float,
    work_height: float,
    kerf: float,
    tooth_pitch: float,
    cutting_stress: float,
    rubbing_force: float,
) -> float:
    """Return the power the teeth take.

    P = k h (K v_f + F0 v_b / p)
    Takes: feed_speed, band_speed [m/s]; work_height h, kerf k, tooth_pitch p [m]; cutting_stress K [Pa]; rubbing_force
    F0 [N/m]. Gives: power [W]. Holds for: as cutting_energy; sharp teeth (dulling over a shift adds 11 to 35 %:
    Cristovao, Ekevad, Gronlund, BioResources 8(4), 2013, abstract read). Source: energy per tooth summed; derived.

    >>> cutting_power(1.36 / 60, 15.0, 150e-3, 1.1e-3, 25.4e-3 / 3, 40e6, 1200.0)
    500.3
    """
    not_negative(feed_speed=feed_speed, cutting_stress=cutting_stress, rubbing_force=rubbing_force)
    positive(band_speed=band_speed, work_height=work_height, kerf=kerf, tooth_pitch=tooth_pitch)
    return kerf * work_height * (cutting_stress * feed_speed + rubbing_force * band_speed / tooth_pitch)


def rubbing_power(band_speed: float, work_height: float, kerf: float, tooth_pitch: float, rubbing_force: float) -> float:
    """Return the part of the power that the edges take by rubbing, at any feed.

    P0 = k h F0 v_b / p
    Takes: as cutting_power. Gives: power [W]. Holds for: as cutting_power.
    Source: as cutting_power. It is why a fine pitch stalls a small saw in tall work.

    >>> rubbing_power(15.0, 150e-3, 1.1e-3, 25.4e-3 / 6, 1200.0)
    701.6
    """
    return cutting_power(0.0, band_speed, work_height, kerf, tooth_pitch, 0.0, rubbing_force)


def net_power(motor_power: float, idle_power: float, drive_efficiency: float) -> float:
    """Return the power left for the teeth.

    P_net = eta (P_motor - P_idle)
    Takes: motor_power at the plug, idle_power of the saw running free [W]; drive_efficiency eta [-]. Gives: [W].
    Holds for: 0 < eta <= 1, idle below motor power. Source: definition; derived.

    >>> net_power(750.0, 150.0, 0.8)
    480.0
    """
    positive(motor_power=motor_power)
    require(0 <= idle_power < motor_power, "idle_power", idle_power, "0 or more and less than motor_power")
    require(0 < drive_efficiency <= 1, "drive_efficiency", drive_efficiency, "more than 0 and at most 1")
    return drive_efficiency * (motor_power - idle_power)


def feed_at_power(
    net_power: float,
    band_speed: float,
    work_height: float,
    kerf: float,
    tooth_pitch: float,
    cutting_stress: float,
    rubbing_force: float,
) -> float:
    """Return the feed that uses up the power; nothing is left when the edges' rubbing takes it all.

    v_f = max(0, P_net / (k h) - F0 v_b / p) / K
    Takes: net_power [W], the rest as cutting_power with K above 0. Gives: feed [m/s].
    Holds for: as cutting_power. A number to print only with constants from this saw's own timed cuts. Source: derived.

    >>> feed_at_power(500.0, 15.0, 150e-3, 1.1e-3, 25.4e-3 / 3, 40e6, 1200.0) * 60
    1.36
    """
    not_negative(net_power=net_power)
    positive(cutting_stress=cutting_stress)
    rubbing = rubbing_power(band_speed, work_height, kerf, tooth_pitch, rubbing_force)
    return max(0.0, net_power - rubbing) / (kerf * work_height * cutting_stress)


def main_force(cutting_power: float, band_speed: float) -> float:
    """Return the force along the band.

    F = P / v_b
    Takes: cutting_power [W]; band_speed [m/s]. Gives: force [N].
    Holds for: steady cutting. Source: definition of power; derived.

    >>> main_force(500.0, 15.0)
    33.3
    """
    not_negative(cutting_power=cutting_power)
    positive(band_speed=band_speed)
    return cutting_power / band_speed


def energy_from_timed_cut(
    loaded_power: float, idle_power: float, drive_efficiency: float, kerf: float, work_height: float, feed_speed: float
) -> float:
    """Return the cutting energy of this wood on this saw from one timed cut with a power meter.

    u = eta (P_loaded - P_idle) / (k h v_f)
    Takes: loaded_power, idle_power [W]; drive_efficiency [-]; kerf, work_height [m]; feed_speed [m/s]. Gives: [Pa].
    Holds for: steady feed over the whole cut. Source: energy balance; derived.

    >>> energy_from_timed_cut(700.0, 150.0, 0.8, 1.1e-3, 150e-3, 2 / 60) / 1e6
    80.0
    """
    positive(kerf=kerf, work_height=work_height, feed_speed=feed_speed)
    return net_power(loaded_power, idle_power, drive_efficiency) / (kerf * work_height * feed_speed)


def constants_from_two_cuts(bite_fine: float, energy_fine: float, bite_coarse: float, energy_coarse: float) -> tuple[float, float]:
    """Return K and F0 of a wood from two timed cuts at different bites.

    F0 = (u1 - u2) / (1/f1 - 1/f2),  K = u2 - F0 / f2
    Takes: bite_fine f1 < bite_coarse f2 [m]; energy_fine u1, energy_coarse u2 [Pa]. Gives: K [Pa], F0 [N/m].
    Holds for: u1 >= u2 and a K that comes out above 0; else the two cuts disagree with the model. Source: derived.

    >>> constants_from_two_cuts(20e-6, 100e6, 40e-6, 70e6)
    (40000000.0, 1200.0)
    """
    positive(bite_fine=bite_fine)
    require(bite_coarse > bite_fine, "bite_coarse", bite_coarse, "more than bite_fine")
    require(energy_fine >= energy_coarse > 0, "energy_fine", energy_fine, "energy_coarse or more")
    rubbing = (energy_fine - energy_coarse) / (1 / bite_fine - 1 / bite_coarse)
    stress = energy_coarse - rubbing / bite_coarse
    require(stress > 0, "energy_coarse", energy_coarse, "so large that energy is left beside rubbing")
    return stress, rubbing


@dataclass(frozen=True)
class Governing:
    """The limit that binds: its name, the feed it allows [m/s], and the others from the tightest up."""

    name: str
    feed_speed: float
    others: tuple[tuple[str, float], ...]


def governing_limit(limits: Mapping[str, float]) -> Governing:
    """Return the limit that allows the least feed.

    min over the limits; of equal ones the first given
    Takes: limits, name -> feed [m/s]. Gives: Governing.
    Holds for: at least one limit, none below 0. Source: definition; derived.

    >>> governing_limit({"gullet": 0.068, "power": 0.023, "finish": 0.18}).name
    'power'
    """
    if not limits:
        raise OutsideMethod("limits", 0, "at least one limit")
    for name, feed in limits.items():
        require(feed >= 0, name, feed, "0 or more")
    (name, feed), *others = sorted(limits.items(), key=lambda pair: pair[1])
    return Governing(name, feed, tuple(others))


def governing_words(governing: Governing) -> str:
    """Say what to change when a limit governs.

    Takes: Governing. Gives: words; a name without advice is named only.
    Holds for: the limits gullet, power, finish, straightness, rubbing. Source: what each formula depends on; derived.

    >>> governing_words(Governing("gullet", 0.068, ()))
    'gullet room governs: a blade with deeper gullets, that is a coarser one, cuts faster'
    """
    return GOVERNING_WORDS.get(governing.name, f"{governing.name} governs")


GOVERNING_WORDS = {
    "gullet": "gullet room governs: a blade with deeper gullets, that is a coarser one, cuts faster",
    "power": "power governs: fewer or sharper teeth in the work, or a thinner kerf, cut faster",
    "finish": "finish governs: a finer pitch allows more feed at the same bite",
    "straightness": "straightness governs: a wider blade, more tension or lower guides allow more feed",
}
