"""How much may be loaded: the payload whose own loads, worked out anew, the wheel still bears."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from platewheel.parts.base.spec_model import unchecked
from platewheel.parts.loads.spectrum import spectrum
from platewheel.parts.loads.wheel_load import flange_push_n, side_force_n, wheel_load_n
from platewheel.parts.rating.detail import cycles_of
from platewheel.parts.rating.miner import damage
from platewheel.parts.rating.rate import Rating
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import angles

MOST_KG = 100_000.0  # what the wagon's key takes
HALVINGS = 30


def with_payload(setting: Setting, payload_kg: float) -> Setting:
    """The setting with another payload; a mass unsprung is never taken as more than the wheel's
    share of it (`parts.loads.joint`)."""
    return replace(setting, wagon=unchecked(setting.wagon, {"payload_kg": payload_kg}))


def bears(setting: Setting, rated: Setting, rating: Rating, response: Response) -> bool:
    """Whether a wheel rated in one setting bears the loads of another with the same wheel.

    At rest: no load and no push is further above those that it was rated for than the least of
    its limits allows (stress is no more than in proportion to the greater of them). In time:
    Miner's sum at the places that set its fatigue limits, with the new loads.
    """
    design = wheel_load_n(rated)
    at_rest = min(limit.load_n for limit in rating.limits if limit.damage is None) / design
    for force in (wheel_load_n, side_force_n, flange_push_n):
        if force(setting) > at_rest * force(rated) * (1 + 1e-9):
            return False
    blocks, turns = spectrum(setting), angles(response)
    for one in (one for one in rating.lasting if one.judged):
        cycles = cycles_of(one.detail, blocks, turns)
        done = damage(
            cycles, one.detail.fat_n_mm2, setting.fatigue_factor, one.detail.in_shear
        ).sum(axis=1)
        if done.max() > 1 + 1e-9:
            return False
    return True


def most_payload_kg(setting: Setting, rated: Sequence[tuple[Rating, Response]]) -> float:
    """Greatest payload that the wheel bears in every state rated, kg; below 0 by as much as the
    empty wagon itself is too heavy, in proportion."""

    def holds(payload_kg: float) -> bool:
        other = with_payload(setting, payload_kg)
        return all(bears(other, setting, *one) for one in rated)

    if not holds(0.0):
        least = min(rating.load_n for rating, _ in rated) / wheel_load_n(setting)
        gross = setting.wagon.tare_kg + setting.wagon.payload_kg
        return min(least * gross - setting.wagon.tare_kg, -1.0)
    return _last_that_holds(holds, MOST_KG)


def _last_that_holds(holds: Callable[[float], bool], most: float) -> float:
    low, high = 0.0, most
    if holds(most):
        return most
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
