"""Small parts laid in the large holes of others, where the steel is scrap anyhow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from nesting.inside import holds
from nesting.layout import Layout, Placement, Turns, Wanted
from parts.blank import Blank
from parts.outline import Circle, Loop, Point, area_mm2, bounds, moved_point

ROUNDING_MM = 2e-3  # more than places are rounded by
FREEDOM: dict[Turns, int] = {"fixed": 0, "half": 1, "quarter": 2, "any": 3}


@dataclass(frozen=True)
class Guest:
    """`count` of a blank, each in one hole of a holder, at `offset` from the holder's origin."""

    holder: str
    blank: Blank
    offset: Point
    count: int


def guests_of(group: Sequence[Wanted], spacing_mm: float) -> tuple[list[Wanted], list[Guest]]:
    """What is still to be laid on plates, and what goes into holes of it.

    The largest hole takes the largest blank that it holds, at the holder's own turn.
    """
    left = {w.blank.name: w.count for w in group}
    guests: list[Guest] = []
    held: set[str] = set()
    for holder in sorted(group, key=lambda w: (-area_mm2(w.blank.outline), w.blank.name)):
        if holder.blank.name in held:  # lies in a hole itself, in part: its holes stay empty
            continue
        for hole in sorted(holder.blank.holes, key=lambda loop: -area_mm2(loop)):
            found = _largest_in(hole, holder, group, left, spacing_mm)
            if found is None:
                continue
            guest, offset = found
            count = min(left[guest.blank.name], holder.count)
            left[guest.blank.name] -= count
            held.add(guest.blank.name)
            guests.append(Guest(holder.blank.name, guest.blank, offset, count))
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

    Where fewer guests are wanted than a repeated layout has room for, one plate of it is told
    apart from the rest.
    """
    done, missing = list(layouts), []
    for guest in guests:
        left = guest.count
        for i in sorted(range(len(done)), key=lambda i: -done[i].repeat):
            layout = done[i]
            here = min(layout.counts[guest.holder], left // layout.repeat)
            if here:
                done[i] = _filled(layout, guest, here)
                left -= here * layout.repeat
        for i in range(len(done)):
            free = done[i].counts[guest.holder] - _there(done[i], guest)
            if left and free and done[i].repeat > 1:
                here = min(free, left)
                done.append(_filled(replace(done[i], repeat=1), guest, here))
                done[i] = replace(done[i], repeat=done[i].repeat - 1)
                left -= here
        if left:
            missing.append(Wanted(guest.blank, left))
    return done, missing


def _spots(layout: Layout, guest: Guest) -> list[Placement]:
    spots = []
    for p in layout.placements:
        if p.blank.name == guest.holder:
            x, y = moved_point(guest.offset, p.x_mm, p.y_mm, p.rotation_deg)
            spots.append(Placement(guest.blank, round(x, 3), round(y, 3), p.rotation_deg))
    return spots


def _there(layout: Layout, guest: Guest) -> int:
    """How many of the guest's spots are taken already."""
    return len(set(_spots(layout, guest)) & set(layout.placements))


def _filled(layout: Layout, guest: Guest, count: int) -> Layout:
    taken = set(layout.placements)
    free = [spot for spot in _spots(layout, guest) if spot not in taken]
    return replace(layout, placements=(*layout.placements, *free[:count]))
