"""Speed and pierce time by thickness: `[[cut_speed]]` rows, read between them, never beyond.

Rows with `hole_up_to_mm` are for round holes alone, which are cut slower than long edges.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from pydantic import Field

from platewheel.nesting.stock.cutting import Cutting
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import Spec

SAME_MM = 1e-6  # diameters nearer than this are one


class CutSpeed(Spec):
    """One row of the cutting chart of a machine."""

    process: Literal["plasma", "laser", "oxy-fuel", "hand"] = Field(
        "plasma", description="that the row is for"
    )
    current_a: float | None = Field(
        None,
        gt=0,
        le=1000,
        examples=[45.0],
        description="that the row is for; absent = the chart knows no current",
        json_schema_extra={"takes": "a number of amperes"},
    )
    thickness_mm: float = Field(gt=0, le=100, examples=[6.0], description="of the sheet")
    speed_mm_per_min: float = Field(
        gt=0, le=60000, examples=[1800.0], description="from the chart of your machine"
    )
    pierce_s: float = Field(ge=0, le=120, examples=[0.8], description="time to pierce")
    hole_up_to_mm: float | None = Field(
        None,
        gt=0,
        le=1000,
        examples=[37.0],
        description="the row is for round holes up to this diameter, cut slower to stay round: 60 "
        "to 70 % of the speed up to some 37 mm (common practice, no source); absent = for all else",
        json_schema_extra={"takes": "a number"},
    )


@dataclass(frozen=True)
class Pace:
    """How fast one thickness is cut."""

    speed_mm_per_min: float
    pierce_s: float


def pace(cutting: Cutting, rows: Sequence[CutSpeed], thickness_mm: float) -> Pace:
    """Pace for a thickness: its row, or straight between the two neighbouring ones.

    Without rows, `[cutting]` tells the pace. Raises: SpecError where the chart does not reach.
    """
    if not rows:
        by_hand = cutting.process == "hand"
        return Pace(cutting.usual_speed(thickness_mm), 0.0 if by_hand else cutting.pierce_s)
    wrong = list(speed_faults(cutting, rows, [thickness_mm]))
    if wrong:
        raise SpecError(wrong)
    found = _between(_base(_chosen(cutting, rows)), thickness_mm)
    assert found is not None  # the chart reaches it
    return found


def hole_pace(
    cutting: Cutting, rows: Sequence[CutSpeed], thickness_mm: float, diameter_mm: float
) -> Pace:
    """Pace for a round hole: by the rows for the smallest holes that it is one of and that reach
    the thickness; where there are none, as every edge. Raises: as `pace`.
    """
    usual = pace(cutting, rows, thickness_mm)
    own = hole_paces(cutting, rows, thickness_mm)
    return next((pace for size, pace in own if diameter_mm <= size + SAME_MM), usual)


def hole_paces(
    cutting: Cutting, rows: Sequence[CutSpeed], thickness_mm: float
) -> list[tuple[float, Pace]]:
    """Largest diameter and pace of each size of hole that the rows know in a thickness."""
    own = [row for row in _chosen(cutting, rows) if row.hole_up_to_mm is not None]
    sizes = sorted({row.hole_up_to_mm for row in own if row.hole_up_to_mm is not None})
    found = ((s, _between([r for r in own if r.hole_up_to_mm == s], thickness_mm)) for s in sizes)
    return [(size, pace) for size, pace in found if pace is not None]


def _between(rows: Sequence[CutSpeed], thickness_mm: float) -> Pace | None:
    """The row of a thickness, or straight between its two neighbours; None beyond the rows."""
    chart = sorted(rows, key=lambda row: row.thickness_mm)
    for row in chart:
        if row.thickness_mm == thickness_mm:
            return Pace(row.speed_mm_per_min, row.pierce_s)
    around = (p for p in pairwise(chart) if p[0].thickness_mm < thickness_mm < p[1].thickness_mm)
    pair = next(around, None)
    if pair is None:
        return None
    thin, thick = pair
    share = (thickness_mm - thin.thickness_mm) / (thick.thickness_mm - thin.thickness_mm)
    return Pace(
        thin.speed_mm_per_min + share * (thick.speed_mm_per_min - thin.speed_mm_per_min),
        thin.pierce_s + share * (thick.pierce_s - thin.pierce_s),
    )


def speed_faults(
    cutting: Cutting, rows: Sequence[CutSpeed], thicknesses_mm: Sequence[float]
) -> Iterator[Fault]:
    """What is wrong with the chart for these thicknesses; keys are paths in the job file."""
    if not rows:
        if cutting.current_a is not None:
            yield Fault(
                "cutting.current_a",
                cutting.current_a,
                "given only with [[cut_speed]] rows, which it picks from",
                "remove it, or add [[cut_speed]] rows",
            )
        return
    if cutting.cut_speed_mm_per_min is not None:
        yield Fault(
            "cutting.cut_speed_mm_per_min",
            cutting.cut_speed_mm_per_min,
            "left out where [[cut_speed]] rows tell the speed",
            "remove it, or remove the rows",
        )
    yield from _twice(rows)
    yield from hole_faults(rows)
    if cutting.process == "hand":
        yield from _hand_faults(rows)
    unclear = next(_unclear(cutting, rows), None)
    if unclear:
        yield unclear
        return
    reach = [row.thickness_mm for row in _base(_chosen(cutting, rows))]
    least, most = min(reach), max(reach)
    for thickness in sorted(set(thicknesses_mm)):
        if not least <= thickness <= most:
            told = f"{least:g} mm alone" if least == most else f"{least:g} to {most:g} mm"
            yield Fault(
                "cut_speed",
                f"no speed for {thickness:g} mm",
                f"thicknesses within the rows for {_said(cutting)}, now {told}",
                f"a [[cut_speed]] row with thickness_mm = {thickness:.12g}",
            )


def _hand_faults(rows: Sequence[CutSpeed]) -> Iterator[Fault]:
    """Rows by hand with what only a torch has."""
    for i, row in enumerate(rows):
        if row.process != "hand":
            continue
        if row.pierce_s:
            allowed = "0 with process hand: nothing is pierced"
            yield Fault(f"cut_speed[{i}].pierce_s", row.pierce_s, allowed, "pierce_s = 0")
        if row.hole_up_to_mm is not None:
            yield Fault(
                f"cut_speed[{i}].hole_up_to_mm",
                row.hole_up_to_mm,
                "left out with process hand: holes are drilled, sawn or chain drilled",
                "remove the row",
            )


def _twice(rows: Sequence[CutSpeed]) -> Iterator[Fault]:
    seen = set()
    for i, row in enumerate(rows):
        about = (row.process, row.current_a, row.thickness_mm, row.hole_up_to_mm)
        if about in seen:
            yield Fault(
                f"cut_speed[{i}].thickness_mm",
                row.thickness_mm,
                "one row for each process, current, thickness and size of hole",
                "remove one of the two",
            )
        seen.add(about)


def hole_faults(rows: Sequence[CutSpeed]) -> Iterator[Fault]:
    """Rows for holes without a row for all else, or not sorted: smaller holes cut faster."""
    for i, row in enumerate(rows):
        if row.hole_up_to_mm is None:
            continue
        like = [other for other in rows if _alike(row, other)]
        if not _base(like):
            yield Fault(
                f"cut_speed[{i}].thickness_mm",
                row.thickness_mm,
                "one that has a row without hole_up_to_mm too, of the same process and current",
                "add that row, for all that is no such hole",
            )
        larger = [o for o in like if (o.hole_up_to_mm or math.inf) > row.hole_up_to_mm]
        slowest = min(larger, key=lambda other: other.speed_mm_per_min, default=row)
        if row.speed_mm_per_min > slowest.speed_mm_per_min:
            than = f"holes up to {slowest.hole_up_to_mm:g} mm" if slowest.hole_up_to_mm else "edges"
            yield Fault(
                f"cut_speed[{i}].speed_mm_per_min",
                row.speed_mm_per_min,
                f"at most {slowest.speed_mm_per_min:g}, as for {than} of this thickness: smaller "
                "holes are not cut faster",
                f"speed_mm_per_min = {0.65 * slowest.speed_mm_per_min:g}",
            )


def _alike(one: CutSpeed, other: CutSpeed) -> bool:
    """Of one process, current and thickness."""
    keys = ("process", "current_a", "thickness_mm")
    return all(getattr(one, key) == getattr(other, key) for key in keys)


def _unclear(cutting: Cutting, rows: Sequence[CutSpeed]) -> Iterator[Fault]:
    """A process without rows, or a current that picks none or is left open."""
    own = [row for row in _base(rows) if row.process == cutting.process]
    if not own:
        yield Fault(
            "cut_speed",
            f"no row for {cutting.process}",
            f'rows with process = "{cutting.process}"',
            "add them, or change cutting.process",
        )
        return
    currents = {row.current_a for row in own}
    known = sorted(current for current in currents if current is not None)
    named = ", ".join(f"{current:g}" for current in known)
    advice = f"current_a = {known[0]:g}" if known else "remove it"
    if cutting.current_a is None:
        if len(currents) > 1:
            allowed = f"{named}: the [[cut_speed]] rows for {cutting.process} are not for one alone"
            yield Fault("cutting.current_a", None, allowed, advice)
    elif cutting.current_a not in currents:
        allowed = f"one that [[cut_speed]] has for {cutting.process}: {named or 'it has none'}"
        yield Fault("cutting.current_a", cutting.current_a, allowed, advice)


def _chosen(cutting: Cutting, rows: Sequence[CutSpeed]) -> list[CutSpeed]:
    """Rows for the process and, where one is told, the current."""
    own = [row for row in rows if row.process == cutting.process]
    if cutting.current_a is None:
        return own
    return [row for row in own if row.current_a == cutting.current_a]


def _base(rows: Iterable[CutSpeed]) -> list[CutSpeed]:
    """Rows that are not for holes alone."""
    return [row for row in rows if row.hole_up_to_mm is None]


def _said(cutting: Cutting) -> str:
    at = f" at {cutting.current_a:g} A" if cutting.current_a is not None else ""
    return f"{cutting.process}{at}"
