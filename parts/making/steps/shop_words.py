"""What a shop with few tools does otherwise: sentences for the steps, empty where it has all."""

from __future__ import annotations

import math

from platewheel.parts.base.units import Units, length
from platewheel.parts.checks.making.welder import (
    least_current_a,
    runs,
    throat_in_one_run_mm,
    welded_plates_mm,
)
from platewheel.parts.geometry.section import area_mm2
from platewheel.parts.making.press_force import nut_torque_n_m, rod_for_mm
from platewheel.parts.making.springback import round_force_n
from platewheel.parts.making.steps.shop_limits import PRACTICE
from platewheel.parts.making.steps.step import Work
from platewheel.parts.making.weld_shrinkage import seam_area_mm2
from platewheel.parts.wheel.welds import root_bead

WARM_DEG = 100.0  # of plates that a weak welder fuses; common practice, no source


def pulled_round(work: Work, oval_mm: float) -> str:
    """A ring squeezed without a press; empty with one."""
    if work.setting.shop.press_t:
        return ""
    force = round_force_n(work.setting.wheel, oval_mm)
    rod = rod_for_mm(force)
    if rod is None:
        return (
            " No press: a car jack inside the ring, across its smallest diameter between two "
            "blocks cut to its curve."
        )
    return (
        f" No press: an M{rod} rod through two bars across the ring, its nut turned with "
        f"{max(0.1, nut_torque_n_m(force, rod)):.1f} N m, gives that force (thread as bought)."
    )


def seam_runs(work: Work, units: Units) -> list[str]:
    """Runs of the ring's seam; none where the welder's current is not told."""
    wheel, most = work.setting.wheel, work.setting.shop.welder_most_a
    if most is None:
        return []
    area = seam_area_mm2(wheel.tread_thickness_mm, wheel.seam_gap_mm)
    count = max(2, runs(area, most, work.costs.welding))
    return [
        f"At {most:g} A that is {count} runs, one of them from inside, each chipped and brushed. "
        f"{_weak(work)}".strip()
    ]


def fillet_runs(work: Work, units: Units) -> list[str]:
    """Runs of the discs' fillets; none where the welder's current is not told."""
    most, process = work.setting.shop.welder_most_a, work.costs.welding
    if most is None:
        return []
    throat = work.setting.wheel.weld_throat_mm
    one, count = throat_in_one_run_mm(most, process), runs(throat**2, most, process)
    if count == 1:
        words = (
            f"{most:g} A lay up to {length(one, units)} of throat in one run: 1 run, no weaving."
        )
    else:
        words = (
            f"{most:g} A lay {length(one, units)} of throat in one run: {count} runs, the first "
            "into the corner, the others beside it on either plate, chipped and brushed between."
        )
    return [f"{words} {_weak(work)}".strip()]


def root_runs(work: Work, units: Units) -> list[str]:
    """Runs that fill the V behind the flange."""
    wheel, most = work.setting.wheel, work.setting.shop.welder_most_a
    if most is None:
        return []
    count = max(2, runs(area_mm2(root_bead(wheel).section), most, work.costs.welding))
    words = f"At {most:g} A that is {count} runs, the thin one at the root among them."
    return [f"{words} {_weak(work)}".strip()]


def _weak(work: Work) -> str:
    """What to do where the welder does not fuse into the thickest plate cold."""
    most = work.setting.shop.welder_most_a
    thick = max(welded_plates_mm(work.setting.wheel).values())
    if most is None or most >= least_current_a(thick):
        return ""
    return (
        f"{thick:g} mm ask for {least_current_a(thick):g} A: warm both plates to "
        f"{WARM_DEG:g} degrees before every run (spit sizzles; {PRACTICE}), and break a trial "
        "piece open to see that the root is fused."
    )


def galvanized(work: Work) -> bool:
    """Whether it goes into a zinc bath."""
    return work.setting.finish.coating == "galvanized"


def vents_over_vents(work: Work) -> str:
    """How the vents of two discs lie: the galvanizer has a say where there is a bath."""
    what = "vents over vents" if work.setting.disc is None else "openings over openings"
    return what + (", or as your galvanizer asks" if galvanized(work) else "")


def hand_drilled(work: Work) -> str:
    """How a hole is drilled square without a drill press."""
    if work.setting.shop.drill_press:
        return ""
    return (
        " No drill press: punch, a first hole of a third of the size, a block of hardwood bored "
        "square as a guide, two people to sight along and across, oil."
    )


def measured_without_micrometer(work: Work, most_mm: float, units: Units, pressed: bool) -> str:
    """How a bore is judged with a caliper; empty with a micrometer. `most_mm`: the most that it
    may be larger; `pressed`: what goes in is larger than the bore."""
    if work.setting.shop.measures_with == "micrometer":
        return ""
    if pressed:
        return (
            " No micrometer: what is pressed in is the gauge, its end filed to a slight cone: it "
            "enters by hand for a few millimetres and no further."
        )
    feeler = math.ceil(20 * max(most_mm, 0.05)) / 20
    return (
        " No micrometer: a piece of the axle's own bar is the gauge, its end filed to a slight "
        "cone. It goes through by hand, does not rock, and a feeler of "
        f"{length(feeler, units, 2)} finds no way in beside it."
    )
