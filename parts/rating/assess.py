"""The whole load rating of a job's wheel: new and worn to the limit, and how far it lasts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.rating.endurance import BlockDamage, Endurance, damage_by_block
from platewheel.parts.rating.payload import most_payload_kg, with_payload
from platewheel.parts.rating.rate import Rating, rate
from platewheel.parts.rating.unrated import most_wear_mm, unrated
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.contact_patch import crown_radius_mm
from platewheel.parts.stress.one_core import one_core
from platewheel.parts.stress.response import Response


@dataclass(frozen=True)
class Assessment:
    """Ratings and what they were read from. `worn` is None where the wear leaves too little."""

    new: Rating
    worn: Rating | None
    response: Response
    life_km: float
    life_ends: Endurance | None
    payload_kg: float  # a wagon; negative where the wagon alone is too much
    by_block: tuple[BlockDamage, ...] = ()  # what ends the life, of new and worn the worse

    @property
    def finite_life_km(self) -> float | None:
        """Distance to a fatigue crack, None where none is to come."""
        return self.life_km if math.isfinite(self.life_km) else None

    @property
    def least(self) -> Rating:
        """The lower of the two ratings."""
        if self.worn and self.worn.load_n < self.new.load_n:
            return self.worn
        return self.new


def load_solver() -> None:
    """Before a process is forked to assess: what both it and this one load later, loaded once."""
    import scipy.optimize  # noqa: F401


@one_core
def assess(setting: Setting, size_mm: float = 2.0) -> Assessment | None:
    """Rate the wheel new and worn by the allowance; None for a wheel that `unrated` explains."""
    if unrated(setting):
        return None
    new = rate(setting, size_mm=size_mm)
    wear, worn = setting.use.wear_allowance_mm, None
    if wear == 0:
        worn = new
    elif wear <= most_wear_mm(setting):
        worn = rate(setting, worn_mm=wear, size_mm=size_mm)
    states = [state for state in (new, worn) if state]
    payload = most_payload_kg(setting, states)
    if crown_radius_mm(setting) and payload > 0:
        payload = _self_rated(setting, payload, wear if worn else 0.0, size_mm)
    cracks = [rating.first_crack for rating, _ in states]
    crack = max((one for one in cracks if one), key=lambda one: one.damage, default=None)
    way = setting.use.km_per_year * setting.use.years
    return Assessment(
        new[0],
        worn[0] if worn else None,
        new[1],
        way / crack.damage if crack and crack.damage else math.inf,
        crack,
        payload,
        tuple(damage_by_block(crack, setting)) if crack else (),
    )


def _self_rated(setting: Setting, payload_kg: float, worn_mm: float, size_mm: float) -> float:
    """Payload that rates itself: on a crowned rail the patch, and so the rating, goes with the
    load. Three rounds, and the least of the last two."""
    before = payload_kg
    for _ in range(3):
        before = payload_kg
        other = with_payload(setting, max(payload_kg, 0.0))
        payload_kg = most_payload_kg(other, [rate(other, worn_mm=worn_mm, size_mm=size_mm)])
    return min(before, payload_kg)
