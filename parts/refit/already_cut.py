"""Discs and flanges that were cut before the rings were rolled: the fewest new ones.

A drawn disc goes into a ring as it is, into one that is pressed round or resized a little, or
ground down; a drawn flange goes on a ring as it is, or trimmed at one end. The rest is cut anew.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from platewheel.parts.checks.making.weld_access import seam_gap_range_mm
from platewheel.parts.refit.measured_ring import MeasuredRing
from platewheel.parts.refit.ring_windows import RingWindows, moved, ring_windows
from platewheel.parts.refit.shared_blanks import (
    Window,
    flange_of_size,
    flange_seam_on_mm,
)
from platewheel.parts.refit.tried_flange import TriedFlange
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.flange import blank_sweep_deg
from platewheel.parts.wheel.hub_disc import SIDES, Side, disc_diameter_mm, discs_differ
from platewheel.parts.wheel.spec import WheelSpec

GRIND_MM = 1.0  # on the radius, off a disc's rim by hand; common practice, no source
FLANGE = "flange"
RESIZED = 3  # a ring stretched or shrunk is as much work as three discs ground; our choice
MOST_WORKS = 1 + RESIZED + 2 + 1


@dataclass(frozen=True)
class Way:
    """How one ring is served: the drawn disc at each side, or None for a new one; whether the
    drawn flange is taken (None: the one tried on stays, or there is nothing to choose). The ring is
    `trued`: pressed round and resized by `shift_mm`; discs ground by `grind_mm` on the radius, the
    flange trimmed by `trim_mm` at one end."""

    discs: tuple[str | None, str | None]
    flange: bool | None
    trued: bool
    shift_mm: float
    grind_mm: tuple[float, float]
    trim_mm: float

    @property
    def works(self) -> int:
        """What is done so that less is cut anew, in pieces of work: a ring pressed, a disc ground
        and a flange trimmed are one each, a ring resized is RESIZED."""
        resized = RESIZED * (self.shift_mm != 0)
        return self.trued + resized + sum(mm > 0 for mm in self.grind_mm) + (self.trim_mm > 0)

    @property
    def round_mm(self) -> float:
        """What the ring is resized by, by tape. Source: pi times the diameter."""
        return math.pi * self.shift_mm

    @property
    def ground_alike(self) -> bool:
        """Whether both discs are ground, by the same to 0.01 mm."""
        field, gauge = self.grind_mm
        return field > 0 and abs(field - gauge) < 0.005

    def new_pieces(self, segments: int) -> int:
        """Discs and flange pieces that are cut anew."""
        return sum(disc is None for disc in self.discs) + segments * (self.flange is False)


def drawn_discs(setting: Setting) -> dict[str, tuple[float, int]]:
    """Drawn discs by name: diameter, and how many a wheel has."""
    wheel = setting.wheel
    if not discs_differ(wheel):
        return {"disc": (disc_diameter_mm(wheel, "gauge"), 2)}
    return {f"disc-{side}": (disc_diameter_mm(wheel, side), 1) for side in SIDES}


def fewest_new(
    setting: Setting,
    rings: Sequence[MeasuredRing],
    specs: Sequence[WheelSpec],
    tried: Sequence[TriedFlange | None],
    wheels: int,
) -> tuple[Way, ...]:
    """A way for each ring: no other plan cuts fewer pieces anew with the drawn blanks of so many
    wheels, and of those that cut as few none has less work."""
    discs = drawn_discs(setting)
    ways = [
        _ways(setting, ring, spec, flange, {name: size for name, (size, _) in discs.items()})
        for ring, spec, flange in zip(rings, specs, tried, strict=True)
    ]
    left = {name: wheels * count for name, (_, count) in discs.items()} | {FLANGE: wheels}
    segments = setting.wheel.flange_segments
    weight = 1 + MOST_WORKS * len(rings)  # a piece is more than all the work there can be

    def cost(way: Way) -> int:
        return weight * way.new_pieces(segments) + way.works

    best = [min(one, key=cost) for one in ways]
    if all(sum(_takes(way)[name] for way in best) <= left[name] for name in left):
        return tuple(best)
    return _by_programme(ways, left, [[cost(way) for way in one] for one in ways])


def _takes(way: Way) -> Mapping[str, int]:
    names = ["disc", *(f"disc-{side}" for side in SIDES)]
    found = {name: sum(disc == name for disc in way.discs) for name in names}
    return found | {FLANGE: int(way.flange is True)}


def _by_programme(
    ways: Sequence[Sequence[Way]], left: Mapping[str, int], costs: Sequence[Sequence[int]]
) -> tuple[Way, ...]:
    """The cheapest choice of one way a ring that takes no more than there is; an integer
    programme, since a blank that one ring takes another lacks."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csc_array

    flat = [(i, way) for i, one in enumerate(ways) for way in one]
    of = [i for i, _ in flat]
    once = csc_array((np.ones(len(flat)), (of, range(len(flat)))), shape=(len(ways), len(flat)))
    takes = np.array([[_takes(way)[name] for _, way in flat] for name in left])
    found = milp(
        np.concatenate([np.array(one, dtype=float) for one in costs]),
        integrality=np.ones(len(flat)),
        bounds=Bounds(0, 1),
        constraints=[
            LinearConstraint(once, 1, 1),
            LinearConstraint(takes, -np.inf, np.array(list(left.values()), dtype=float)),
        ],
        options={"mip_rel_gap": 0.0},
    )
    assert found.x is not None, found.message  # all anew takes nothing and is always there
    chosen = dict(flat[k] for k, taken in enumerate(found.x) if taken > 0.5)
    return tuple(chosen[i] for i in range(len(ways)))


def _ways(
    setting: Setting,
    ring: MeasuredRing,
    spec: WheelSpec,
    tried: TriedFlange | None,
    sizes: Mapping[str, float],
) -> list[Way]:
    """Every way worth looking at: as it is, and trued by each shift at which something begins or
    ends to fit; of those that serve alike the least shifted."""
    windows = ring_windows(setting, ring, spec, tried is not None)
    found: dict[tuple[object, ...], Way] = {}
    states = [(False, 0.0), *((True, shift) for shift in _shifts(setting, windows, spec, sizes))]
    for trued, shift in states:
        for way in _served(setting, spec, tried, sizes, windows, trued, shift):
            key = (way.discs, way.flange, way.works)
            found.setdefault(key, way)  # the least shift comes first
    return list(found.values())


def _served(
    setting: Setting,
    spec: WheelSpec,
    tried: TriedFlange | None,
    sizes: Mapping[str, float],
    windows: RingWindows,
    trued: bool,
    shift: float,
) -> Iterator[Way]:
    discs = [moved(one, shift) for one in windows.round] if trued else list(windows.now)
    each: list[list[tuple[str | None, float]]] = []
    for window in discs:
        fits = [(name, _grind_mm(window, size)) for name, size in sizes.items()]
        each.append([(None, 0.0), *((name, mm) for name, mm in fits if mm is not None)])
    if tried is not None and tried.remedy != "insert":
        flanges: list[tuple[bool | None, float]] = [(None, 0.0)]
    else:
        trim = None if tried else _trim_mm(setting.wheel, spec, shift)
        flanges = [(False, 0.0), *([] if trim is None else [(True, trim)])]
    for (field, a), (gauge, b) in product(*each):
        for flange, trim in flanges:
            yield Way((field, gauge), flange, trued, shift, (a, b), trim)


def _grind_mm(window: Window, size_mm: float) -> float | None:
    """Off the disc's radius so that it goes into the ring; 0 as it is, None where it does not."""
    if size_mm < window.least_mm - 1e-9:
        return None
    over = (size_mm - window.greatest_mm) / 2
    if over > GRIND_MM + 1e-9:
        return None
    return over if over > 1e-9 else 0.0


def _trim_mm(drawn: WheelSpec, spec: WheelSpec, shift_mm: float) -> float | None:
    """Off one end of the drawn flange so that it closes on the ring; 0 as it is, None where its
    seams are too wide to fill, or it is a washer without a seam. Source: plain geometry."""
    on = spec if not shift_mm else flange_of_size(spec, spec.tread_diameter_mm + shift_mm)
    seam = flange_seam_on_mm(on, drawn.tread_diameter_mm)
    least, most = seam_gap_range_mm(drawn)
    if blank_sweep_deg(drawn) >= 360 - 1e-9:
        return 0.0 if abs(seam) < 1e-9 else None
    if seam > most + 1e-9:
        return None
    return 0.0 if seam >= least - 1e-9 else (drawn.seam_gap_mm - seam) * drawn.flange_segments


def _shifts(
    setting: Setting, windows: RingWindows, spec: WheelSpec, sizes: Mapping[str, float]
) -> list[float]:
    """Shifts at which a disc or the flange begins or ends to fit, within those allowed; the least
    first."""
    low, high = windows.resize_mm
    if windows.round == windows.now and low == high == 0:
        return []
    wheel = setting.wheel
    ends = {0.0, low, high}
    for window, size in product(windows.round, sizes.values()):
        ends |= {size - window.greatest_mm, size - window.least_mm}
        ends.add(size - window.greatest_mm - 2 * GRIND_MM)
    for seam in seam_gap_range_mm(wheel):
        wider = (seam - wheel.seam_gap_mm) * wheel.flange_segments / math.pi
        ends.add(wheel.tread_diameter_mm + wider - spec.tread_diameter_mm)
    return sorted((end for end in ends if low <= end <= high), key=abs)


def gaps_mm(setting: Setting, spec: WheelSpec, way: Way) -> tuple[float | None, float | None]:
    """Gap on the radius of each drawn disc that is taken, ground as it is; None for a new one."""
    sizes = {name: size for name, (size, _) in drawn_discs(setting).items()}

    def gap(k: int, side: Side) -> float | None:
        name = way.discs[k]
        if name is None:
            return None
        bore = disc_diameter_mm(spec, side) / 2 + spec.fit_clearance_mm + way.shift_mm / 2
        return bore - sizes[name] / 2 + way.grind_mm[k]

    return gap(0, "field"), gap(1, "gauge")
