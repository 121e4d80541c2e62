"""What checks advise, followed on wheels and tracks at random: the check then passes.

The tables of the rooms have the cases; here their lines meet settings that nobody chose.
"""

from __future__ import annotations

import random
import re
from pathlib import Path
from typing import Any

import pytest

from platewheel.parts import checks
from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.trying import advice_tried
from tests.parts.checks.advice import MILDEST_FIRST, NUMBER, Advice
from tests.parts.checks.making import test_advice as making
from tests.parts.checks.running import test_advice as running
from tests.parts.checks.running.settings import running_setting
from tests.parts.checks.strength import test_advice as strength

LINES = running.ADVICE | strength.ADVICE | making.ADVICE
TOGETHER = {  # advised of several plates at once; each line follows one
    "roll-thickness: ring",
    "throat-most: disc",
    "throat-most: ring",
    "throat-most: tube",
}
RANGES: dict[str, tuple[float, float]] = {
    "payload_kg": (200, 9000), "min_curve_radius_m": (2, 15), "flange_angle_deg": (48, 90),
    "friction_high": (0.3, 1), "back_to_back_mm": (560, 605), "gauge_widening_mm": (0, 30),
    "wheelbase_mm": (300, 2600), "tread_diameter_mm": (200, 450), "tread_width_mm": (35, 110),
    "tread_thickness_mm": (5, 15), "disc_thickness_mm": (2, 12), "flange_thickness_mm": (4, 12),
    "flange_depth_mm": (2, 22), "rail_corner_radius_mm": (1, 6), "weld_throat_mm": (2, 8),
    "disc_field_inset_mm": (0, 12), "disc_gauge_inset_mm": (0, 12), "lateral_share": (0.2, 1.7),
    "load_unevenness": (1, 3),
    "hub_tube_outside_mm": (36, 70), "twist_mm_per_m": (0, 20), "joint_step_mm": (0, 4),
    "joint_gap_mm": (0, 40), "max_speed_km_h": (2, 20), "cant_mm": (0, 100),
    "centre_of_gravity_mm": (200, 2000), "steepest_gradient_percent": (0, 20),
    "push_force_n": (100, 2000), "rail_head_width_mm": (15, 50), "wear_allowance_mm": (0.5, 4),
    "root_weld_mm": (2, 8), "flangeway_mm": (10, 60), "flangeway_depth_mm": (8, 40),
    "check_rail_flangeway_mm": (8, 40), "shock_factor": (1, 3), "vent_circle_mm": (120, 260),
    "vent_diameter_mm": (8, 24), "fit_clearance_mm": (0.1, 2), "hub_tube_length_mm": (40, 140),
}  # fmt: skip


def keys_at_random(dice: random.Random) -> dict[str, Any]:
    """One to five keys away from the plain wheel."""
    some = dice.sample(list(RANGES), dice.randint(1, 5))
    return {key: round(dice.uniform(*RANGES[key]), 2) for key in some}


def fault(advice: Advice, keys: dict[str, Any]) -> str | None:
    """What is wrong with the advice for a setting; an empty word where it did."""
    setting = running_setting(**keys)
    with advice_tried():
        before = advice.check(setting)
    if before is None or before.verdict not in ("warn", "fail"):
        return None
    found = re.search(advice.pattern.replace("#", NUMBER), before.says)
    if not found:
        return None
    then = advice.follow(setting, float(found[1] or 0))
    try:
        after = advice.check(running_setting(**(keys | then)))
    except SpecError as error:  # another key that has to follow says so itself
        refused = {one.key for one in error.faults} & then.keys()
        return f"{keys}: {before.says}: {then}: {error}" if refused else ""
    worse = MILDEST_FIRST.index(after.verdict) if after else 0
    if worse and worse >= MILDEST_FIRST.index(before.verdict):
        return f"{keys}: {before.says}: {then}: {after.says if after else ''}"
    return ""


def test_each_check_that_advises_a_bound_has_a_line() -> None:
    """A module that tries a value, or rounds a bound, is followed in one of the tables."""
    home = Path(checks.__file__).parent
    advising = {
        path.stem
        for path in home.glob("*/*.py")
        if re.search(r"\b(tried|at_least|at_most)\(", path.read_text(encoding="utf-8"))
    }
    followed = {advice.check.__module__.split(".")[-1] for advice in LINES.values()}
    assert advising - followed == set()


@pytest.mark.parametrize("seed", range(4))
def test_advice_is_sound_on_settings_that_nobody_chose(seed: int) -> None:
    dice = random.Random(seed)
    followed, faults = set(), []
    for _ in range(40):
        keys = keys_at_random(dice)
        try:
            running_setting(**keys)
        except SpecError:
            continue
        for name in LINES.keys() - TOGETHER:
            said = fault(LINES[name], keys)
            if said is not None:
                followed.add(name)
            if said:
                faults.append(f"{name}: {said}")
    assert not faults
    assert len(followed) >= 20, "the settings at random ask for hardly any advice"
