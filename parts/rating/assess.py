"""The whole load rating of a job's wheel: new and worn to the limit, and how far it lasts."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from platewheel.parts.rating.contact_patch import crown_radius_mm
from platewheel.parts.rating.limit import Limit
from platewheel.parts.rating.rate import Rating, life_km, rate, wagon_gross_kg
from platewheel.parts.rating.response import Response
from platewheel.parts.rating.unrated import most_wear_mm, unrated
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.track import WagonSpec


@dataclass(frozen=True)
class Assessment:
    """Ratings and what they were read from. `worn` is None where the wear leaves too little."""

    new: Rating
    worn: Rating | None
    response: Response
    life_km: float
    life_ends: Limit | None
    payload_kg: float  # per wagon, worn, less the tare; negative where the wagon alone is too much

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


def assess(setting: Setting, size_mm: float = 2.0) -> Assessment | None:
    """Rate the wheel new and worn by the allowance; None for a wheel that `unrated` explains."""
    if unrated(setting):
        return None
    new, response = rate(setting, size_mm=size_mm)
    wear = setting.use.wear_allowance_mm
    worn: Rating | None = None
    if wear == 0:
        worn = new
    elif wear <= most_wear_mm(setting):
        worn, _ = rate(setting, worn_mm=wear, size_mm=size_mm)
    lives = [life_km(rating, setting) for rating in (new, worn) if rating]
    life, ends = min(lives, key=lambda found: found[0])
    lower = min(rating.load_n for rating in (new, worn) if rating)
    payload = wagon_gross_kg(setting, lower) - setting.wagon.tare_kg
    if crown_radius_mm(setting):
        payload = _self_rated(setting, payload, wear if worn else 0.0, size_mm)
    return Assessment(new, worn, response, life, ends, payload)


def _self_rated(setting: Setting, payload_kg: float, worn_mm: float, size_mm: float) -> float:
    """Payload that rates itself: on a crowned rail the patch, and so the rating, goes with the
    load. Three rounds, and the least of the last two."""
    before = payload_kg
    for _ in range(3):
        before = payload_kg
        wagon = WagonSpec(**(setting.wagon.model_dump() | {"payload_kg": max(payload_kg, 0.0)}))
        rating, _ = rate(replace(setting, wagon=wagon), worn_mm=worn_mm, size_mm=size_mm)
        payload_kg = wagon_gross_kg(setting, rating.load_n) - setting.wagon.tare_kg
    return min(before, payload_kg)
