"""The sizes that a wheel's strength hangs on, and its limits by a coarse stress analysis."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import SpecError
from platewheel.parts.propose.screening import Wheels, asked
from platewheel.parts.rating.unrated import most_wear_mm, unrated
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.kinds import KINDS
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.stock_thickness import ThicknessTolerance, below_thickness

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

COARSE_MM = 4.0  # elements; the cheapest of demo, garden, quarry rate 1.5 to 3.7 % below 2 mm
COARSE_ENOUGH = 0.97  # of the load by such an analysis: a full rating may still confirm the wheel
SIZES = (
    *("tread_diameter_mm", "tread_width_mm", "tread_thickness_mm", "flange_depth_mm"),
    *("flange_thickness_mm", "disc_thickness_mm", "disc_field_inset_mm"),
    *("weld_throat_mm", "root_weld_mm"),
)


def strength_sizes(
    wheels: Wheels, tolerance: ThicknessTolerance = "nominal"
) -> NDArray[np.float64]:
    """Logarithms of SIZES, a row a wheel; plates as thin as they may be, which hangs on what they
    are cut from. Last the play, which moves the push on the flange."""
    import numpy as np

    columns = [asked(wheels, _size(key, tolerance), ("size", key, tolerance)) for key in SIZES]
    found = [column for column in columns if column is not None]
    given = [play for play in wheels.choices.play if play is not None]
    usual = sum(given) / len(given) if given else 1.0  # the job's own is told apart, in their midst
    plays = np.array([usual if play is None else play for play in wheels.choices.play])
    found.append(plays[wheels.places["play"]])
    return np.asarray(np.log(np.maximum(np.stack(found, axis=1), 1.0)))


def _size(key: str, tolerance: ThicknessTolerance) -> Callable[[WheelSpec], float]:
    kind = next((kind for kind in KINDS if kind.thickness_key == key), None)

    def size(wheel: WheelSpec) -> float:
        value = float(getattr(wheel, key))
        if kind is None:
            return value
        return value - below_thickness(wheel, kind.cut_from(wheel), value, tolerance).mm

    return size


def coarse_limits(setting: Setting) -> dict[str, float]:
    """Mean wheel load that each limit of the rating allows, worn by the allowance, N; nothing for
    a wheel that cannot be made or rated."""
    from platewheel.parts.rating.rate import borne_n, rate

    try:
        WheelSpec(**setting.wheel.model_dump())
    except SpecError:
        return {}
    if unrated(setting):
        return {}
    wear = setting.use.wear_allowance_mm
    if wear > most_wear_mm(setting):
        return {}
    rating, _ = rate(setting, worn_mm=wear, size_mm=COARSE_MM)
    return {
        limit.name: borne_n(setting, limit.load_n)
        for limit in rating.limits
        if limit.judged and math.isfinite(limit.load_n)
    }
