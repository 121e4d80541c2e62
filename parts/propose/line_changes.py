"""What an owner may change of track, wagon, use and axle: keys with values, the least change
first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from platewheel.parts.base.faults import SpecError
from platewheel.parts.propose.axle_changes import (
    HUB_BORE,
    other_bearings,
    stronger_steels,
    thicker_bores_mm,
    tube_outside_mm,
    with_bore,
)
from platewheel.parts.propose.choices import Choices, Ring
from platewheel.parts.propose.line_steps import with_value
from platewheel.parts.setting.setting import Setting

Value = float | str
LESS = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1)  # of the value
HARD_LESS = (0.85, 0.7, 0.55, 0.4, 0.25)  # of what is rebuilt: wheelbase
MORE = (1.25, 1.5, 2.0, 3.0)
FEW = {"depth": 5, "angle": 6, "inset": 2, "fit": 2, "throat": 4, "root": 4, "vents": 6}
FEW_DIAMETERS = 4
FEW_WIDTHS = 3  # of rings cut from sheet or pipe of one thickness


@dataclass(frozen=True)
class LineChange:
    """One key, such as `track.twist_mm_per_m`, with the values tried; `what` an owner would do."""

    key: str
    was: Value
    values: tuple[Value, ...]
    what: str
    along: tuple[str, ...] = ()  # beside each value, what goes with it

    def size(self, value: Value) -> float:
        """How much of a change: the share of what stands there; another kind counts as half."""
        if isinstance(value, str) or isinstance(self.was, str):
            return 0.5
        return abs(value - self.was) / max(abs(self.was), abs(value), 1e-9)

    def told(self, value: Value) -> str:
        """As a line of the job file, beside what stands there."""
        new, old = (f'"{v}"' if isinstance(v, str) else f"{v:g}" for v in (value, self.was))
        along = self.along[self.values.index(value)] if self.along else ""
        return f"{self.key} = {new} in place of {old} ({self.what}{along})"


def line_changes(setting: Setting, with_axle: bool = True) -> list[LineChange]:
    """Every key that may help, with values that the setting takes; the play is chosen with the
    wheel. `with_axle`: those of the axle too, which help only where the wheelset is checked."""
    return [*_changes(setting), *(_axle_changes(setting) if with_axle else ())]


def _axle_changes(setting: Setting) -> Iterator[LineChange]:
    axle = setting.axle
    bores = [bore for bore in thicker_bores_mm(setting) if _taken(setting, HUB_BORE, bore)]
    if bores:
        yield LineChange(
            HUB_BORE,
            setting.wheel.hub_bore_mm,
            tuple(bores),
            "a thicker axle",
            tuple(f", hub_tube_outside_mm = {tube_outside_mm(setting, b):g}" for b in bores),
        )
    for key, was, values, what in (
        ("axle.steel", axle.steel, stronger_steels(setting), "stronger bar"),
        ("axle.bearing", axle.bearing_kind, other_bearings(setting), "other bearings"),
    ):
        fit = tuple(value for value in values if _taken(setting, key, value))
        if fit:
            yield LineChange(key, was, fit, what)


def with_change(setting: Setting, key: str, value: Value) -> Setting:
    """The setting with the key changed and what goes with it. Raises: SpecError."""
    if key == HUB_BORE and not isinstance(value, str):
        return with_bore(setting, value)
    return with_value(setting, key, value)


def _changes(setting: Setting) -> Iterator[LineChange]:
    track, wagon, use = setting.track, setting.wagon, setting.use
    wider = (2.0, 4.0, 6.0, 8.0, 12.0)
    rows: list[tuple[str, tuple[Value, ...], str]] = [
        ("track.twist_mm_per_m", _shares(track.twist_mm_per_m, LESS), "pack the track"),
        ("track.joint_step_mm", _shares(track.joint_step_mm, LESS), "align the rail ends"),
        ("track.min_curve_radius_m", _shares(track.min_curve_radius_m, MORE), "wider curves"),
        ("track.gauge_widening_mm", _added(track.gauge_widening_mm, wider), "widen the curves"),
        ("track.flangeway_mm", _added(setting.flangeway_mm, wider), "wider flangeways"),
        ("wagon.payload_kg", (*_shares(wagon.payload_kg, LESS), 0.0), "smaller loads"),
        ("wagon.max_speed_km_h", _shares(wagon.max_speed_km_h, LESS), "slower"),
        ("wagon.wheelbase_mm", _shares(wagon.wheelbase_mm, HARD_LESS), "shorter wagons"),
        ("use.years", _shares(use.years, LESS), "new wheels sooner"),
        ("use.km_per_year", _shares(use.km_per_year, LESS), "fewer journeys a wagon"),
        ("use.push_force_n", _shares(use.push_force_n, MORE), "more people, or a machine"),
    ]
    if wagon.suspension == "rigid":
        axles: tuple[Value, ...] = ("three-point", "sprung")
        rows.append(("wagon.suspension", axles, "let one axle rock, so that four wheels stand"))
    if track.flangeway_depth_mm is not None:
        deeper = _added(track.flangeway_depth_mm, (5.0, 10.0, 20.0, 30.0))
        rows.append(("track.flangeway_depth_mm", deeper, "deeper flangeways"))
    for key, values, what in rows:
        section, name = key.split(".")
        was = getattr(getattr(setting, section), name)
        if was is None:  # the usual flangeway, of a job that gives none
            was = setting.flangeway_mm
        fit = tuple(value for value in values if value != was and _taken(setting, key, value))
        if fit:
            yield LineChange(key, was, fit, what)


def _shares(value: float, shares: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(float(f"{value * share:.3g}") for share in shares) if value else ()


def _added(value: float, more: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(value + one for one in more)


def _taken(setting: Setting, key: str, value: Value) -> bool:
    try:
        with_change(setting, key, value)
    except SpecError:
        return False
    return True


def fewer(
    choices: Choices, few: Mapping[str, int] = FEW, diameters: int = FEW_DIAMETERS
) -> Choices:
    """Choices spread over the same ranges, so `few` on an axis, pipes with their diameters; as it
    stands some hundredth of the wheels: to look for a change with which any wheel passes."""
    rings = _fewer_rings(choices.ring)
    pipes = [ring.diameter_mm for ring in choices.ring if ring.diameter_mm is not None]
    round_sizes = [d for d in choices.diameter if d not in pipes]
    sizes = {*_spread(tuple(round_sizes), diameters), *pipes}
    less = {axis: _spread(getattr(choices, axis), count) for axis, count in few.items()}
    return replace(choices, ring=rings, diameter=tuple(sorted(sizes)), **less)


def _fewer_rings(rings: tuple[Ring, ...]) -> tuple[Ring, ...]:
    """Every bar section and pipe, and of sheet of one thickness some widths."""
    alike: dict[object, list[Ring]] = {}
    for ring in rings:
        bar = ring.width_mm if ring.source == "bar" else None  # bars come in their own widths
        alike.setdefault((ring.source, ring.thickness_mm, ring.diameter_mm, bar), []).append(ring)
    return tuple(ring for same in alike.values() for ring in _spread(tuple(same), FEW_WIDTHS))


def _spread(values: tuple[Any, ...], count: int) -> tuple[Any, ...]:
    """So many of the values, evenly from the first to the last; all where they are no more."""
    if len(values) <= count:
        return values
    last = len(values) - 1
    return tuple(values[round(k * last / (count - 1))] for k in range(count))
