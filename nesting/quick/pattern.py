"""The fullest way found to fill one plate: with whole kits, or with whatever is still wanted.

A kit is the least set of blanks that keeps the job's proportions, such as one wheel's. Work is
counted in tries, never in seconds, and random orders come from the caller's generator, so the
same call gives the same plate.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Sequence

from platewheel.nesting.quick.fill import Plate
from platewheel.nesting.quick.no_fit import NoFit
from platewheel.nesting.quick.rows import disc_rows
from platewheel.nesting.stock.layout import Sheet
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle

Kit = tuple[tuple[Blank, int], ...]


def fill_most(
    sheet: Sheet,
    wanted: Sequence[tuple[Blank, int]],
    margin_mm: float,
    fits: NoFit,
    tries: int,
    rng: random.Random,
) -> Plate:
    """Lay as much as goes of the wanted blanks: the order with most part area on the plate."""
    empty = Plate(sheet, [blank for blank, _ in wanted], margin_mm, fits)
    best, best_area = empty, 0.0
    if len(wanted) == 1 and isinstance(wanted[0][0].outline, Circle):
        rows = disc_rows(wanted[0][0], sheet, fits.spacing_mm, margin_mm)[: wanted[0][1]]
        best, best_area = empty.copy(), sum(placement.blank.area_mm2 for placement in rows)
        best.lay_all(rows)
    for attempt in range(tries):
        plate = empty.copy()
        full: set[str] = set()
        for blank in _order(tuple(wanted), 1, attempt, rng):
            if blank.name not in full and not plate.lay(blank):
                full.add(blank.name)
                if len(full) == len(wanted):
                    break
        area = sum(placement.blank.area_mm2 for placement in plate.placements)
        if area > best_area + 1e-6:
            best, best_area = plate.done(), area
        if len(best.placements) == sum(count for _, count in wanted):
            break
    return best.done()


def fill_kits(
    sheet: Sheet,
    kit: Kit,
    most: int,
    margin_mm: float,
    fits: NoFit,
    tries: int,
    rng: random.Random,
) -> tuple[int, Plate]:
    """Most whole kits on one plate that the tries find, at most `most`; and the plate.

    Each try lays one order of blanks; when one holds n kits, the next tries ask for n + 1.
    """
    empty = Plate(sheet, [blank for blank, _ in kit], margin_mm, fits)
    room = empty.sheet.area_mm2 / sum(blank.area_mm2 * count for blank, count in kit)
    best, best_plate = _laid(empty, kit, _order(kit, min(most, int(room)), len(kit), rng))
    if len(kit) == 1 and isinstance(kit[0][0].outline, Circle):
        rows = disc_rows(kit[0][0], sheet, fits.spacing_mm, margin_mm)
        held = min(most, len(rows) // kit[0][1])
        if held > best:
            best, best_plate = held, empty.copy()
            best_plate.lay_all(rows[: held * kit[0][1]])
    failed = 0
    while best < most and failed < tries:
        held, plate = _laid(empty, kit, _order(kit, best + 1, failed, rng))
        if held > best:
            best, best_plate, failed = held, plate, 0
        else:
            failed += 1
    return best, best_plate


def _laid(empty: Plate, kit: Kit, order: Sequence[Blank]) -> tuple[int, Plate]:
    """Blanks laid in order till one does not go: whole kits, and the plate with just those."""
    plate = empty.copy()
    laid: Counter[str] = Counter()
    for blank in order:
        if not plate.lay(blank):
            break
        laid[blank.name] += 1
    held = min(laid[blank.name] // count for blank, count in kit)
    return held, _only(plate, kit, held, empty)


def top_up(plate: Plate, wanted: Sequence[tuple[Blank, int]]) -> None:
    """Lay blanks in the order given, each kind till its count is laid or no more fits."""
    for blank, count in wanted:
        for _ in range(count):
            if not plate.lay(blank):
                break


def _order(kit: Kit, kits: int, attempt: int, rng: random.Random) -> list[Blank]:
    """Order in which `kits` kits are laid: each kind first, kit by kit, then random runs."""
    if attempt < len(kit):
        turn = [*kit[attempt:], *kit[:attempt]]
        return [blank for blank, count in turn for _ in range(count * kits)]
    if attempt == len(kit):
        return [blank for _ in range(kits) for blank, count in kit for _ in range(count)]
    left = {blank.name: count * kits for blank, count in kit}
    by_name = {blank.name: blank for blank, _ in kit}
    order: list[Blank] = []
    while left:
        name = rng.choices(list(left), weights=list(left.values()))[0]
        run = min(left[name], rng.randint(1, 6))
        order += [by_name[name]] * run
        left[name] -= run
        if not left[name]:
            del left[name]
    return order


def _only(plate: Plate, kit: Kit, kits: int, empty: Plate) -> Plate:
    """The plate without the blanks that went beyond its whole kits."""
    allowed = {blank.name: count * kits for blank, count in kit}
    if len(plate.placements) == sum(allowed.values()):
        return plate
    kept = empty.copy()
    for placement in plate.placements:
        if allowed[placement.blank.name]:
            allowed[placement.blank.name] -= 1
            kept.put(placement)
    return kept
