"""A part's outline read from a DXF file: true lines and arcs, in mm.

All that is drawn on visible layers is taken for a cut, but for what lies on the layer "mark":
that is punched or scribed, its words too. Rows of [[drawing_layer]] may say otherwise. Other
words and points are left out. Whatever was left out, assumed or drawn by arcs is told in `notes`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from platewheel.nesting.drawings.closed_loops import (
    JOIN_MM,
    SHORT_MM,
    Run,
    Wrong,
    closed_loops,
    run_segments,
)
from platewheel.nesting.drawings.counted import (
    MOST_ENTITIES,
    BlockError,
    entities_in_space,
)
from platewheel.nesting.drawings.curve_arcs import CURVE_MM, MOST_ARCS
from platewheel.nesting.drawings.curves import is_straight
from platewheel.nesting.drawings.drawn_runs import (
    CURVES,
    DRAWN,
    WORDS,
    Drawn,
    DrawnError,
    drawn_runs,
    flat_entities,
)
from platewheel.nesting.drawings.drawn_words import MARKED_WORDS, Words, drawn_words
from platewheel.nesting.drawings.layers import Uses, unlike_drawing, use_of
from platewheel.nesting.drawings.nested_loops import outline_and_holes
from platewheel.nesting.drawings.opened import (
    A_DXF,
    Refused,
    Unit,
    opened,
    require_few,
    unit_of,
    with_letters,
)
from platewheel.nesting.drawings.short_lines import by_arcs
from platewheel.nesting.geometry.markable import Markable, told
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.so_many import so_many
from platewheel.parts.geometry.blank import Mark, MarkPoint
from platewheel.parts.geometry.outline import (
    Arc,
    Line,
    Loop,
    Point,
    bounds,
    moved,
    moved_point,
    segments,
)

MOST_EDGES = 4000  # lines and arcs of one part, cut or marked
LEAST_MM, MOST_MM = 1.0, 30_000.0  # greater of length and width


@dataclass(frozen=True)
class Outline:
    """A drawing's part, moved so that its bounds start at 0, 0; loops run counter-clockwise.

    `origin` is where 0, 0 lay, in mm; `unit_mm` is one unit of the drawing.
    """

    outline: Loop
    holes: tuple[Loop, ...]
    marks: tuple[Mark, ...]
    notes: tuple[str, ...]
    origin: Point = (0.0, 0.0)
    unit_mm: float = 1.0


def read_outline(
    path: Path,
    unit: Unit = "file",
    said: str | None = None,
    *,
    join_mm: float = JOIN_MM,
    uses: Uses | None = None,
) -> Outline:
    """The part drawn in a DXF file. `said` is the file as the user named it; ends within
    `join_mm` are joined; `uses` says what layers are for.

    Raises: SpecError for the key `file`, with everything that is wrong with the drawing.
    """
    name = said or str(path)

    def refused(wrong: Sequence[Wrong]) -> SpecError:
        return SpecError(Fault("file", name, allowed, advice) for allowed, advice in wrong)

    try:
        drawing = opened(path)
        unit_mm, notes = unit_of(drawing, unit)
        entities, left_out, wrong = _entities(drawing, uses or {})
        runs, marks, also, bad = _runs(entities, unit_mm)
        left_out += also
        notes += left_out
        wrong += bad
    except Refused as refusal:
        raise refused([refusal.wrong]) from refusal.__cause__
    found = closed_loops(runs, unit_mm, join_mm)
    if not (found.wrong or wrong):
        if not found.loops:
            raise refused([_no_edge(runs, left_out, len(marks))])
        around = _around(found.loops)
        if max(_sides(around)) < LEAST_MM:  # whatever else is wrong with it follows from that
            raise refused([_of_no_size(around)])
    short = _edges(found.loops)
    if short > MOST_EDGES:
        found.loops = [by_arcs(loop) for loop in found.loops]
        fewer = _edges(found.loops)
        found.notes.append(
            f"{short} lines drawn by {fewer} arcs and lines within {CURVE_MM:g} mm of them"
        )
    for what, edges in (
        ("cut", _edges(found.loops)),
        ("mark", len(marks)),
    ):
        if edges > MOST_EDGES:
            allowed = f"at most {MOST_EDGES} lines and arcs to {what}; there are {edges}"
            wrong.append((allowed, "draw curves as arcs, not as many short lines"))
            raise refused([*wrong, *found.wrong])
    found.wrong[:0] = wrong
    sorted_loops = outline_and_holes(found, unit_mm, join_mm)
    if sorted_loops is None:
        raise refused(found.wrong)
    outline, holes = sorted_loops
    x0, y0, _, _ = around = bounds(outline)
    if not LEAST_MM <= max(_sides(around)) <= MOST_MM:
        raise refused([_of_no_size(around)])
    return Outline(
        moved(outline, -x0, -y0),
        tuple(moved(hole, -x0, -y0) for hole in holes),
        tuple(moved_mark(mark, -x0, -y0) for mark in marks),
        (*notes, *found.notes),
        (x0, y0),
        unit_mm,
    )


Box = tuple[float, float, float, float]


def _around(loops: Sequence[Loop]) -> Box:
    x0, y0, x1, y1 = zip(*map(bounds, loops), strict=True)
    return min(x0), min(y0), max(x1), max(y1)


def _sides(around: Box) -> tuple[float, float]:
    x0, y0, x1, y1 = around
    return x1 - x0, y1 - y0


def _of_no_size(around: Box) -> Wrong:
    length, width = _sides(around)
    allowed = f"a part of {LEAST_MM:g} to {MOST_MM:g} mm; this is {length:g} x {width:g} mm"
    return allowed, "say the drawing's unit with the key unit"


def _no_edge(runs: Sequence[Run], left_out: Sequence[str], marks: int) -> Wrong:
    """Why a drawing has no loop, though nothing else is wrong with it."""
    if not runs:
        instead = [*left_out, *([so_many(marks, "mark")] if marks else [])]
        there = f": {', '.join(instead)}" if instead else ""
        allowed = f"closed lines on visible layers; none are drawn{there}"
        return allowed, "draw the part's edge by lines and arcs"
    xs, ys, _ = zip(*(corner for run in runs for corner in run.corners), strict=True)
    allowed = (
        f"closed lines longer than {SHORT_MM:g} mm; all that are drawn are shorter, together "
        f"{max(max(xs) - min(xs), max(ys) - min(ys)):.3g} mm across"
    )
    return allowed, "say the drawing's unit with the key unit, or draw the part full size"


def _edges(loops: Sequence[Loop]) -> int:
    return sum(len(segments(loop)) for loop in loops)


def _entities(drawing: Any, uses: Uses) -> tuple[list[Drawn], list[str], list[Wrong]]:
    """Visible entities with what is done with them, what to tell, and wrong layers."""
    named = [(with_letters(layer.dxf.name), layer) for layer in drawing.layers]
    hidden = {name.lower() for name, layer in named if layer.is_off() or layer.is_frozen()}
    there = {name.lower(): name for name, _ in named}
    seen: list[Drawn] = []
    drawn: set[str] = set()
    unseen = ignored = 0
    try:
        require_few(entities_in_space(drawing))
        for entity, layer in flat_entities(drawing.modelspace()):
            there.setdefault(layer.lower(), layer)
            use = use_of(uses, layer)
            if layer.lower() in hidden or entity.dxf.get("invisible", 0):
                unseen += 1
            elif use == "ignored":
                ignored += 1
            else:
                seen.append((entity, use))
                if entity.dxftype() in DRAWN:
                    drawn.add(layer)
    except BlockError as error:
        raise Refused(f"blocks that can be taken apart, not {error}", "explode them") from error
    except Refused:
        raise
    except Exception as error:  # as in `opened`
        raise Refused(A_DXF, "save it again, its blocks exploded; the file is damaged") from error
    out = [(unseen, "hidden layers"), (ignored, "layers that the job ignores")]
    notes = [f"{so_many(n, 'entity', 'entities')} on {where} left out" for n, where in out if n]
    return seen, notes, list(unlike_drawing(uses, list(there.values()), hidden, drawn))


def _runs(
    entities: Sequence[Drawn], unit_mm: float
) -> tuple[list[Run], list[Mark], list[str], list[Wrong]]:
    """Cuts, marks, what to tell, and what cannot be cut."""
    runs: list[Run] = []
    marks: list[Mark] = []
    spelt: list[Markable] = []
    words: Counter[str] = Counter()
    curves: Counter[str] = Counter()
    refused: Counter[str] = Counter()
    many = sum(entity.dxftype() in CURVES for entity, _ in entities)
    if many > MOST_EDGES:
        allowed = f"at most {MOST_EDGES} {' and '.join(CURVES)}; there are {many}"
        raise Refused(allowed, "join the curves, or draw them as arcs")
    corners = arcs = 0
    for entity, use in entities:
        kind = entity.dxftype()
        marked = use == "mark" and kind in MARKED_WORDS
        said = drawn_words(entity, unit_mm) if marked else Words()
        spelt += said.spelt
        if any(one.drawn or one.hidden for one in said.spelt):
            marks += said.lines
        elif kind in WORDS and not (kind == "POINT" and use == "mark"):
            words[kind] += 1
        elif kind not in DRAWN and kind != "POINT":
            refused[f"{kind} entities"] += 1
        else:
            try:
                run = drawn_runs(entity, unit_mm)
            except DrawnError as error:
                refused[str(error)] += 1
                continue
            corners += len(run.corners)
            arcs += len(run.corners) if kind in CURVES and not is_straight(entity) else 0
            if arcs > MOST_ARCS:
                allowed = f"{' and '.join(CURVES)} of at most {MOST_ARCS} lines and arcs together"
                raise Refused(allowed, "save the one part alone; draw curves as arcs")
            if corners > 3 * MOST_ENTITIES:
                allowed = f"polylines and curves of at most {3 * MOST_ENTITIES} corners together"
                raise Refused(allowed, "save the one part alone; draw curves as arcs")
            if kind == "POINT":
                marks.append(MarkPoint(run.corners[0][:2]))
                continue
            if use == "mark":
                marks += run_segments(run)
            else:
                runs.append(run)
            curves[kind] += kind in CURVES
    notes = [f"{n} {kind} left out" for kind, n in sorted(words.items())]
    notes += [
        f"{n} {kind} drawn by arcs that lie within {CURVE_MM:g} mm of it"
        for kind, n in sorted(curves.items())
        if n
    ]
    notes += told(spelt)
    allowed = f"{', '.join(DRAWN)} in the xy plane"
    wrong = [
        (allowed, f"draw the outline by these instead of {n} {what}")
        for what, n in sorted(refused.items())
    ]
    return runs, marks, notes, wrong


def moved_mark(mark: Mark, x_mm: float, y_mm: float) -> Mark:
    """The mark moved by x, y."""
    if isinstance(mark, Line | Arc):
        loop = moved((mark,), x_mm, y_mm)
        return segments(loop)[0]
    return replace(mark, at=moved_point(mark.at, x_mm, y_mm, 0.0))
