"""Small parts laid in the large holes of others, where the steel is scrap anyhow.

A hole is filled as an offcut is: as many parts as go, by the quick plan's own filling.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from platewheel.nesting.geometry.facets import outer_polygon
from platewheel.nesting.quick.inside import holds, inner_polygon
from platewheel.nesting.quick.no_fit import NoFit
from platewheel.nesting.quick.pattern import fill_most
from platewheel.nesting.stock.layout import Layout, Placement, Sheet, Turns, Wanted
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import (
    Circle,
    Loop,
    Point,
    area_mm2,
    bounds,
    moved_point,
)

ROUNDING_MM = 2e-3  # more than places are rounded by
FREEDOM: dict[Turns, int] = {"fixed": 0, "half": 1, "quarter": 2, "any": 3}
SAG_MM = 0.1  # of the hole's facets, on the safe side, where more than one part goes in
STEP_MM = 1.0  # between places that are tried
MOST_KINDS, MOST_WAYS, ORDERS = 6, 8, 6  # blanks tried in a hole, ways to fill it, orders of each


@dataclass(frozen=True)
class Guests:
    """`count` holders have these parts in the hole of that number; places are in the holder's own
    axes."""

    holder: str
    hole: int
    parts: tuple[Placement, ...]
    count: int

    @property
    def counts(self) -> Counter[str]:
        """Parts in one hole, by name."""
        return Counter(part.blank.name for part in self.parts)


def guests_of(group: Sequence[Wanted], spacing_mm: float) -> tuple[list[Wanted], list[Guests]]:
    """What is still to be laid on plates, and what goes into holes of it.

    The largest hole takes the largest blank that it holds and what goes beside it, or else other
    parts of more area, at the holder's own turn; the holes that are left then take the next. Work
    is bounded: so many kinds and ways for each hole, what is left is laid on plates.
    """
    left = {w.blank.name: w.count for w in group}
    guests: list[Guests] = []
    held: set[str] = set()
    fits = NoFit(spacing_mm + ROUNDING_MM, STEP_MM, {w.blank.name: w.turns for w in group})
    for holder in sorted(group, key=lambda w: (-area_mm2(w.blank.outline), w.blank.name)):
        if holder.blank.name in held:  # lies in a hole itself, in part: its holes stay empty
            continue
        largest = sorted(enumerate(holder.blank.holes), key=lambda one: -area_mm2(one[1]))
        for number, hole in largest:
            free = holder.count
            for _ in range(MOST_WAYS):
                parts = _filling(hole, holder, group, left, fits) if free else ()
                if not parts:
                    break
                each = Counter(part.blank.name for part in parts)
                count = min(free, *(left[name] // n for name, n in each.items()))
                for name, n in each.items():
                    left[name] -= n * count
                    held.add(name)
                free -= count
                guests.append(Guests(holder.blank.name, number, parts, count))
    return [replace(w, count=left[w.blank.name]) for w in group if left[w.blank.name]], guests


def _filling(
    hole: Loop, holder: Wanted, group: Sequence[Wanted], left: dict[str, int], fits: NoFit
) -> tuple[Placement, ...]:
    """Parts in one hole: the largest first, or whatever fills more of it."""
    may = [
        other
        for other in sorted(group, key=lambda w: (-w.blank.area_mm2, w.blank.name))
        if other.blank.name != holder.blank.name
        and left[other.blank.name]
        and _may_turn(holder, other)
        and not _wider(other.blank.outline, hole, fits.spacing_mm)
    ]
    first = _largest_in(hole, holder, may, fits.spacing_mm)
    wanted = [(w.blank, left[w.blank.name]) for w in may[:MOST_KINDS]]
    if first is not None:
        rest = [(blank, n - (blank.name == first.blank.name)) for blank, n in wanted]
        beside = (first, *_fill(hole, first, [one for one in rest if one[1]], fits))
        alone = sum(n for _, n in wanted) == 1
        ways = [beside] if alone else [beside, _fill(hole, None, wanted, fits)]
    else:
        ways = [_fill(hole, None, wanted, fits)]
    ways += (rings_of_discs(hole, blank, n, fits.spacing_mm) for blank, n in wanted)
    return max(ways, key=lambda parts: round(sum(p.blank.area_mm2 for p in parts), 3))


def rings_of_discs(hole: Loop, blank: Blank, most: int, spacing_mm: float) -> tuple[Placement, ...]:
    """Discs of one size in rings along a round hole, the outermost full; none for other shapes.

    So many in a ring that neighbours keep the spacing, chord = 2 x radius x sin(180 / number):
    plain geometry; up to seven in all no packing has more (Graham, 1968, from memory).
    """
    edge = blank.outline
    if not (isinstance(hole, Circle) and isinstance(edge, Circle)):
        return ()
    apart = 2 * edge.radius_mm + spacing_mm
    radius = hole.radius_mm - spacing_mm - edge.radius_mm
    (x, y), (u, v) = hole.centre, edge.centre
    spots: list[Point] = []
    while radius >= 0 and len(spots) < most:
        if 2 * radius < apart:
            spots.append((x, y))
            break
        number = int(math.pi / math.asin(apart / 2 / radius) + 1e-9)
        turns = (2 * math.pi * i / number for i in range(number))
        spots += [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns]
        radius -= apart
    return tuple(Placement(blank, a - u, b - v, 0.0) for a, b in spots[:most])


def _fill(
    hole: Loop,
    first: Placement | None,
    wanted: Sequence[tuple[Blank, int]],
    fits: NoFit,
) -> tuple[Placement, ...]:
    """The hole as an offcut, with a hole of its own where the first part lies."""
    laid = [] if first is None else [outer_polygon(first.outline)]
    room = area_mm2(hole) - (0.0 if first is None else area_mm2(first.outline))
    wanted = [(b, min(n, int(room / area_mm2(b.outline)))) for b, n in wanted]
    wanted = [(blank, n) for blank, n in wanted if n]
    if not wanted:
        return ()
    corners = inner_polygon(hole, SAG_MM)
    x0, y0 = min(x for x, _ in corners), min(y for _, y in corners)

    def shifted(ring: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x - x0, y - y0) for x, y in ring)

    edge = shifted(corners)
    length, width = max(x for x, _ in edge), max(y for _, y in edge)
    holes = tuple(shifted(ring) for ring in laid)
    sheet = Sheet("hole", 0.0, length, width, 1, 0.0, edge=edge, holes=holes)
    plate = fill_most(sheet, wanted, fits.spacing_mm, fits, ORDERS, random.Random(0))
    return tuple(replace(p, x_mm=p.x_mm + x0, y_mm=p.y_mm + y0) for p in plate.placements)


def _largest_in(
    hole: Loop, holder: Wanted, may: Sequence[Wanted], spacing_mm: float
) -> Placement | None:
    only = replace(holder.blank, holes=(hole,))
    for other in may:
        offset = holds(only, other.blank, spacing_mm)
        if offset is not None:
            return Placement(other.blank, *offset, 0.0)
    return None


def _may_turn(holder: Wanted, other: Wanted) -> bool:
    """Whether the other blank may lie at any turn that its holder takes."""
    if isinstance(other.blank.outline, Circle) and not other.blank.holes:
        return True
    return FREEDOM[holder.turns] <= FREEDOM[other.turns]


def _wider(inner: Loop, hole: Loop, spacing_mm: float) -> bool:
    """Whether it cannot go in at any quarter turn."""
    a, b = _sides(inner), _sides(hole)
    return a[0] + 2 * spacing_mm > b[0] or a[1] + 2 * spacing_mm > b[1]


def _sides(loop: Loop) -> list[float]:
    x0, y0, x1, y1 = bounds(loop)
    return sorted((x1 - x0, y1 - y0))


def with_guests(
    layouts: Sequence[Layout], guests: Sequence[Guests]
) -> tuple[list[Layout], list[Wanted]]:
    """The layouts with all guests in their holders; and guests whose holders were not laid.

    Where fewer guests are wanted than a repeated layout has room for, as many plates of it as
    need be are told apart from the rest.
    """
    done, missing = list(layouts), []
    for one in guests:
        rivals = [g for g in guests if (g.holder, g.hole) == (one.holder, one.hole)]
        left = one.count
        for i in sorted(range(len(done)), key=lambda i: -done[i].repeat):
            spots = _free_spots(done[i], one, rivals)
            here = min(len(spots), left // done[i].repeat)
            done[i] = _filled(done[i], spots[:here])
            left -= here * done[i].repeat
        for i in range(len(done)):
            spots = _free_spots(done[i], one, rivals)
            while left and spots and done[i].repeat > 1:
                here = min(len(spots), left)
                times = min(left // here, done[i].repeat - 1)
                done.append(replace(_filled(done[i], spots[:here]), repeat=times))
                done[i] = replace(done[i], repeat=done[i].repeat - times)
                left -= here * times
        blanks = {part.blank.name: part.blank for part in one.parts}
        missing += [Wanted(blanks[name], n * left) for name, n in one.counts.items() if left]
    return done, missing


def _spot(holder: Placement, guests: Guests) -> tuple[Placement, ...]:
    """The guests where they lie on the plate, in the hole of a holder that lies there."""
    x, y, turn = holder.x_mm, holder.y_mm, holder.rotation_deg
    places = (moved_point((part.x_mm, part.y_mm), x, y, turn) for part in guests.parts)
    return tuple(
        Placement(part.blank, round(u, 3), round(v, 3), part.rotation_deg + turn)
        for part, (u, v) in zip(guests.parts, places, strict=True)
    )


def _free_spots(
    layout: Layout, guests: Guests, rivals: Sequence[Guests]
) -> list[tuple[Placement, ...]]:
    """Where the guests may lie: in every such hole that no rival for it has taken."""
    there = set(layout.placements)
    holders = [p for p in layout.placements if p.blank.name == guests.holder]
    return [
        _spot(p, guests)
        for p in holders
        if not any(part in there for rival in rivals for part in _spot(p, rival))
    ]


def _filled(layout: Layout, spots: Sequence[tuple[Placement, ...]]) -> Layout:
    guests = (part for spot in spots for part in spot)
    return replace(layout, placements=(*layout.placements, *guests))
