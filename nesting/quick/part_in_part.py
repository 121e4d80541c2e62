"""Small parts laid in the large holes of others, where the steel is scrap anyhow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from platewheel.nesting.quick.inside import holds
from platewheel.nesting.stock.layout import Layout, Placement, Turns, Wanted
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, Loop, Point, area_mm2, bounds, moved_point

ROUNDING_MM = 2e-3  # more than places are rounded by
FREEDOM: dict[Turns, int] = {"fixed": 0, "half": 1, "quarter": 2, "any": 3}


@dataclass(frozen=True)
class Guest:
    """`count` of a blank, each in the hole of that number of a holder, at `offset` from the
    holder's origin."""

    holder: str
    hole: int
    blank: Blank
    offset: Point
    count: int


def guests_of(group: Sequence[Wanted], spacing_mm: float) -> tuple[list[Wanted], list[Guest]]:
    """What is still to be laid on plates, and what goes into holes of it.

    The largest hole takes the largest blank that it holds, at the holder's own turn; the holes
    that are left then take the next.
    """
    left = {w.blank.name: w.count for w in group}
    guests: list[Guest] = []
    held: set[str] = set()
    for holder in sorted(group, key=lambda w: (-area_mm2(w.blank.outline), w.blank.name)):
        if holder.blank.name in held:  # lies in a hole itself, in part: its holes stay empty
            continue
        largest = sorted(enumerate(holder.blank.holes), key=lambda one: -area_mm2(one[1]))
        for number, hole in largest:
            free = holder.count
            while free and (found := _largest_in(hole, holder, group, left, spacing_mm)):
                guest, offset = found
                count = min(left[guest.blank.name], free)
                left[guest.blank.name] -= count
                free -= count
                held.add(guest.blank.name)
                guests.append(Guest(holder.blank.name, number, guest.blank, offset, count))
    return [replace(w, count=left[w.blank.name]) for w in group if left[w.blank.name]], guests


def _largest_in(
    hole: Loop,
    holder: Wanted,
    group: Sequence[Wanted],
    left: dict[str, int],
    spacing_mm: float,
) -> tuple[Wanted, Point] | None:
    only = replace(holder.blank, holes=(hole,))
    for other in sorted(group, key=lambda w: (-w.blank.area_mm2, w.blank.name)):
        name = other.blank.name
        if name == holder.blank.name or not left[name] or not _may_turn(holder, other):
            continue
        if _wider(other.blank.outline, hole, spacing_mm):
            continue
        offset = holds(only, other.blank, spacing_mm + ROUNDING_MM)
        if offset is not None:
            return other, offset
    return None


def _may_turn(holder: Wanted, other: Wanted) -> bool:
    """Whether the other blank may lie at any turn that its holder takes."""
    if isinstance(other.blank.outline, Circle) and not other.blank.holes:
        return True
    return FREEDOM[holder.turns] <= FREEDOM[other.turns]


def _wider(inner: Loop, hole: Loop, spacing_mm: float) -> bool:
    a, b = bounds(inner), bounds(hole)
    return a[2] - a[0] + 2 * spacing_mm > b[2] - b[0] or a[3] - a[1] + 2 * spacing_mm > b[3] - b[1]


def with_guests(
    layouts: Sequence[Layout], guests: Sequence[Guest]
) -> tuple[list[Layout], list[Wanted]]:
    """The layouts with all guests in their holders; and guests whose holders were not laid.

    Where fewer guests are wanted than a repeated layout has room for, as many plates of it as
    need be are told apart from the rest.
    """
    done, missing = list(layouts), []
    for guest in guests:
        rivals = [g for g in guests if (g.holder, g.hole) == (guest.holder, guest.hole)]
        left = guest.count
        for i in sorted(range(len(done)), key=lambda i: -done[i].repeat):
            spots = _free_spots(done[i], guest, rivals)
            here = min(len(spots), left // done[i].repeat)
            done[i] = _filled(done[i], spots[:here])
            left -= here * done[i].repeat
        for i in range(len(done)):
            spots = _free_spots(done[i], guest, rivals)
            while left and spots and done[i].repeat > 1:
                here = min(len(spots), left)
                times = min(left // here, done[i].repeat - 1)
                done.append(replace(_filled(done[i], spots[:here]), repeat=times))
                done[i] = replace(done[i], repeat=done[i].repeat - times)
                left -= here * times
        if left:
            missing.append(Wanted(guest.blank, left))
    return done, missing


def _spot(holder: Placement, guest: Guest) -> Placement:
    x, y = moved_point(guest.offset, holder.x_mm, holder.y_mm, holder.rotation_deg)
    return Placement(guest.blank, round(x, 3), round(y, 3), holder.rotation_deg)


def _free_spots(layout: Layout, guest: Guest, rivals: Sequence[Guest]) -> list[Placement]:
    """Where the guest may lie: in every such hole that no rival for it has taken."""
    there = set(layout.placements)
    holders = [p for p in layout.placements if p.blank.name == guest.holder]
    return [
        _spot(p, guest) for p in holders if not any(_spot(p, rival) in there for rival in rivals)
    ]


def _filled(layout: Layout, spots: Sequence[Placement]) -> Layout:
    return replace(layout, placements=(*layout.placements, *spots))
