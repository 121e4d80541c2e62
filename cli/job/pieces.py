"""Which pieces of the rack a plan cuts, and what it leaves for the next job."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterator

from platewheel.cli.job.axles import axle_cuts
from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import Plan
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.ledger.piece import Piece
from platewheel.nesting.offcuts.file import NAME_LENGTH, offcut_names
from platewheel.nesting.sawing.axle_lengths import LEAST_REST_MM, AxleCuts
from platewheel.nesting.sawing.cut_lengths import CutPlan
from platewheel.nesting.stock.layout import Layout
from platewheel.nesting.stock.piece_name import as_called
from platewheel.parts.wheel.spec import WheelSpec

Size = tuple[object, ...]


def taken_pieces(job: Job, plan: Plan, axles: bool) -> list[Piece]:
    """Those on the rack before others of their size; offcuts of the job's own file too."""
    if job.rack is None:
        return []
    want = _sizes_taken(job, plan, axles)
    taken = []
    for piece in job.rack.pieces(job.head.name):
        size = (piece.kind, *_size(piece))
        if want[size] > 0:
            want[size] -= 1
            taken.append(piece)
    for offcut in job.offcuts:
        if want["offcut", as_called(offcut.name)] > 0:
            taken.append(Piece("offcut", offcut.name, offcut.model_dump(exclude={"name"})))
    return taken


def cut_pieces(job: Job, plan: Plan) -> list[tuple[str, str, object]]:
    """The same with the job's axles sawn too, as they are whoever has them: kind, name, sizes and
    price."""
    return [(one.kind, one.name, one.spec) for one in taken_pieces(job, plan, axles=True)]


def rack_names(job: Job, plan: Plan) -> dict[Size, list[str]]:
    """Names of the plates and lengths on the rack that a plan cuts, by their kind and size."""
    names: dict[Size, list[str]] = {}
    for piece in taken_pieces(job, plan, axles=True):
        names.setdefault((piece.kind, *_size(piece)), []).append(piece.name)
    return names


def rack_by_layout(job: Job, plan: Plan) -> list[tuple[str, ...]]:
    """Of each layout the names of the pieces on the rack that are cut so, each piece once."""
    return _dealt(job, plan, [(_layout_size(one), one.repeat) for one in plan.layouts])


def rack_by_length(job: Job, plan: Plan) -> list[tuple[str, ...]]:
    """The same of each way to saw a bar or pipe."""
    return _dealt(job, plan, [(_length_size(job, cut), cut.repeat) for cut in plan.lengths])


def _dealt(job: Job, plan: Plan, cuts: list[tuple[Size, int]]) -> list[tuple[str, ...]]:
    names = rack_names(job, plan)
    dealt = []
    for size, count in cuts:
        own = names.get(size, [])
        dealt.append(tuple(own[:count]))
        names[size] = own[count:]
    return dealt


def _length_size(job: Job, cut: CutPlan) -> Size:
    return (job.wheel.tread_from, cut.stock.length_mm, *tread_section(job.wheel))


def _layout_size(layout: Layout) -> Size:
    """The kind of its plate, and what `_size` has after it."""
    sheet = layout.sheet
    if sheet.is_offcut:
        return "offcut", as_called(sheet.name)
    return "plate", sheet.length_mm, sheet.steel, sheet.thickness_mm, sheet.width_mm


def _size(piece: Piece) -> Size:
    """What makes two pieces alike: values in the order of their keys' names."""
    if piece.kind == "offcut":
        return (piece.called,)
    row = piece.spec.model_dump(exclude={"price", "count"})
    return tuple(row[key] for key in sorted(row))


def _sizes_taken(job: Job, plan: Plan, axles: bool) -> Counter[Size]:
    """How many of each size a plan cuts, as `_size` has them after the kind."""
    want = Counter[Size]()
    for layout in plan.layouts:
        want[_layout_size(layout)] += layout.repeat
    for cut in plan.lengths:
        want[_length_size(job, cut)] += cut.repeat
    cuts = _axle_cuts(job, axles)
    for cut, bar in zip(cuts.plans, cuts.bars, strict=True) if cuts else ():
        want["round", bar.diameter_mm, bar.length_mm] += cut.repeat
    return want


def tread_section(wheel: WheelSpec) -> tuple[float, float]:
    """Of the bar or pipe, as it follows the length in a size."""
    if wheel.tread_from == "pipe":
        return wheel.tread_diameter_mm, wheel.tread_thickness_mm
    return wheel.tread_thickness_mm, wheel.tread_width_mm


def _axle_cuts(job: Job, axles: bool) -> AxleCuts | None:
    made = job_wheelset(job).wheelset if axles else None
    return axle_cuts(job, made) if made else None


def left_pieces(job: Job, plan: Plan, axles: bool) -> list[Piece]:
    """Offcuts and ends of bar, pipe and round, named for the chalk."""
    left = []
    for piece, names in zip(plan.kept, offcut_names(plan.kept, job.head.name), strict=True):
        sheet, (x0, y0, _, _) = piece.layout.sheet, piece.bounds
        outline, *holes = [
            [[round(x - x0, 6), round(y - y0, 6)] for x, y in ring]
            for ring in (piece.corners, *piece.holes)
        ]
        sizes = {"steel": sheet.steel, "thickness_mm": sheet.thickness_mm, "outline": outline}
        left += [Piece("offcut", name, sizes | {"holes": holes}) for name in names]
    ends = list(_ends(job, plan, axles))
    words = repr((job.head.name, ends)).encode()
    start = f"{job.head.name[:NAME_LENGTH].rstrip()} {hashlib.sha256(words).hexdigest()[:4]}"
    left += [Piece(kind, f"{start}-{kind}-{i + 1}", end) for i, (kind, end) in enumerate(ends)]
    return left


def _ends(job: Job, plan: Plan, axles: bool) -> Iterator[tuple[str, dict[str, float]]]:
    """Each end worth keeping, in whole mm, by the keys of its kind."""
    wheel = job.wheel
    section = {"width_mm": wheel.tread_width_mm, "thickness_mm": wheel.tread_thickness_mm}
    if wheel.tread_from == "pipe":
        section = {"outside_mm": wheel.tread_diameter_mm, "wall_mm": wheel.tread_thickness_mm}
    for cut in plan.lengths:
        if cut.rest_mm >= LEAST_REST_MM:
            for _ in range(cut.repeat):
                yield wheel.tread_from, section | {"length_mm": float(int(cut.rest_mm))}
    cuts = _axle_cuts(job, axles)
    for bar in cuts.rests if cuts else ():
        for _ in range(bar.count or 0):
            length = float(int(bar.length_mm))
            yield "round", {"diameter_mm": bar.diameter_mm, "length_mm": length}
