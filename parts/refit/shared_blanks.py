"""As few different blanks as possible for rings that are all a little different.

A disc or flange fits every ring for which its gap is neither too narrow nor too wide: a window of
sizes for each ring. The fewest sizes that meet every window are found by the classic greedy rule
for covering intervals by points (greatest size that the tightest ring left over allows).
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.checks.making.weld_access import seam_gap_range_mm
from platewheel.parts.geometry.blank import Blank, MarkText
from platewheel.parts.making.ring_roundness import gap_spread_mm
from platewheel.parts.wheel.flange import blank_sweep_deg, flange_blank
from platewheel.parts.wheel.hub_disc import Side, disc_blank, disc_diameter_mm
from platewheel.parts.wheel.own_disc import fit_faults, resized
from platewheel.parts.wheel.spec import WheelSpec

STEPS_PER_MM = 10  # sizes are told to 0.1 mm
DISC_SOURCE = (
    "least: ISO 9013:2017, limit deviations, and the tape, or 0.2 mm where discs are ground to "
    "their line by hand (common practice, no source); greatest: EN ISO 5817, quality C, root "
    "gap of fillets 0.5 + 0.2 a, at most 3 mm, from memory; both as in the checks"
)
SEAM_SOURCE = (
    "least 1 mm: common practice, no source; greatest 4 mm: EN ISO 9692-1, from memory; both as in "
    "the checks"
)


@dataclass(frozen=True)
class Window:
    """Sizes that fit one ring, and the size that fits it best; mm."""

    least_mm: float
    wanted_mm: float
    greatest_mm: float


def disc_window(
    spec: WheelSpec, side: Side, gap_range_mm: tuple[float, float], out_of_round_mm: float = 0.0
) -> Window:
    """Disc diameters for one side of the wheel made of a ring.

    A ring that goes in out of round keeps its narrowest and widest gap in the range.
    """
    wanted, fit = disc_diameter_mm(spec, side), spec.fit_clearance_mm
    spread = gap_spread_mm(out_of_round_mm)
    least, greatest = gap_range_mm[0] + spread, gap_range_mm[1] - spread
    return Window(wanted - 2 * (greatest - fit), wanted, wanted + 2 * (fit - least))


def flange_window(spec: WheelSpec) -> Window:
    """Tread diameters for which a flange may be cut and still close on this ring.

    On a ring that is wider by d its `flange_segments` seams share pi d more of gap (Source: plain
    geometry). A flat washer without a seam fits its own size alone.
    """
    wanted, fit = spec.tread_diameter_mm, spec.seam_gap_mm
    if blank_sweep_deg(spec) >= 360 - 1e-9:
        return Window(wanted, wanted, wanted)
    least, greatest = seam_gap_range_mm(spec)
    share = spec.flange_segments / math.pi
    return Window(wanted - share * (greatest - fit), wanted, wanted + share * (fit - least))


def flange_seam_on_mm(spec: WheelSpec, cut_for_mm: float) -> float:
    """Gap at each seam of a flange cut for a tread of `cut_for_mm`, on the wheel `spec`."""
    wider = math.pi * (spec.tread_diameter_mm - cut_for_mm)
    return spec.seam_gap_mm + wider / spec.flange_segments


def fewest_sizes(windows: Sequence[Window]) -> tuple[tuple[float, ...], tuple[int, ...]]:
    """Sizes, rising, in steps of 0.1 mm, and for each window the number of its size.

    No smaller number of sizes meets all windows. Where a window holds no step, the step just
    below it is taken: the gap is then wider by less than 0.1 mm. Of the sizes that do, each is
    the nearest to the middle of what its rings want, and each ring takes the nearest that fits.
    """
    spans = [steps_of(window) for window in windows]
    groups: list[list[int]] = []
    point = -math.inf
    for i in sorted(range(len(spans)), key=lambda i: (spans[i][1], spans[i][0])):
        if spans[i][0] > point:
            point = spans[i][1]
            groups.append([])
        groups[-1].append(i)
    points = [_middle([spans[i] for i in g], [windows[i].wanted_mm for i in g]) for g in groups]
    at = [point / STEPS_PER_MM for point in points]  # rising, as their groups are
    chosen = [
        min(
            range(bisect_left(points, low), bisect_right(points, high)),
            key=lambda k: (abs(at[k] - window.wanted_mm), k),
        )
        for (low, high), window in zip(spans, windows, strict=True)
    ]
    used = sorted(set(chosen))  # all of them: a size that nobody needed would be one too many
    sizes = tuple(points[k] / STEPS_PER_MM for k in used)
    place = {k: i for i, k in enumerate(used)}
    return sizes, tuple(place[k] for k in chosen)


def steps_of(window: Window) -> tuple[int, int]:
    """First and last step of 0.1 mm in a window; the one just below where it holds none."""
    low = math.ceil(window.least_mm * STEPS_PER_MM - 1e-6)
    high = math.floor(window.greatest_mm * STEPS_PER_MM + 1e-6)
    return min(low, high), high


def disc_of_size(spec: WheelSpec, side: Side, diameter_mm: float) -> WheelSpec:
    """The wheel whose disc has just this diameter; all else as in `spec`. Raises: SpecError."""
    wider = diameter_mm - disc_diameter_mm(spec, side)
    return flange_of_size(spec, spec.tread_diameter_mm + wider)


def shared_disc(
    spec: WheelSpec, side: Side, diameter_mm: float, name: str, own: Blank | None = None
) -> Blank:
    """Blank of a disc that several rings share; its name is marked on it. One of the user's own
    gets another rim alone. Raises: SpecError, also where its openings then lie in the bead."""
    fitted = disc_of_size(spec, side, diameter_mm)
    if own is None:
        return _named(disc_blank(fitted, side), name)
    disc = replace(resized(own, diameter_mm), name=name)
    if faults := fit_faults(fitted, disc):
        found = f"cut to {diameter_mm:g} mm for a ring as rolled"
        advice = "openings that leave room for it, or a larger ring"
        raise SpecError(dict.fromkeys(Fault("disc", found, one.allowed, advice) for one in faults))
    return disc


def shared_flange(spec: WheelSpec, cut_for_mm: float, name: str, longer_mm: float = 0.0) -> Blank:
    """Blank of one segment of a flange that several rings share, `longer_mm` longer than drawn
    (see `flange_blank`). Raises: SpecError, GeometryError."""
    return _named(flange_blank(flange_of_size(spec, cut_for_mm), longer_mm), name)


def flange_of_size(spec: WheelSpec, tread_diameter_mm: float) -> WheelSpec:
    """The wheel whose flange is cut for this tread; all else as in `spec`. Raises: SpecError."""
    return WheelSpec(**(spec.model_dump() | {"tread_diameter_mm": tread_diameter_mm}))


def _middle(spans: Sequence[tuple[int, int]], wanted_mm: Sequence[float]) -> int:
    """Step nearest to the middle of what is wanted, within all spans."""
    low, high = max(s[0] for s in spans), min(s[1] for s in spans)
    middle = round(STEPS_PER_MM * (min(wanted_mm) + max(wanted_mm)) / 2)
    return min(max(middle, low), high)


def _named(blank: Blank, name: str) -> Blank:
    marks = tuple(
        replace(mark, text=name) if isinstance(mark, MarkText) and mark.text == blank.name else mark
        for mark in blank.marks
    )
    return replace(blank, name=name, marks=marks)
