"""What is done to a ring, and to discs and a flange that were cut before, in words."""

from __future__ import annotations

from platewheel.parts.base.so_many import noun
from platewheel.parts.making.springback import round_force_n
from platewheel.parts.refit.already_cut import GRIND_MM, Way
from platewheel.parts.refit.plan import Fitted, Refit
from platewheel.parts.wheel.hub_disc import SIDES

GRIND_SOURCE = "by hand, round and round to a scribed line; common practice, no source"


def first_words(one: Fitted) -> str | None:
    """In the order of the work; None where nothing was cut before, empty where nothing is done."""
    way = one.way
    if way is None:
        return None
    words = [*_ring_words(one, way)]
    ground = dict.fromkeys(
        f"grind the {side} disc by {mm:.2f} mm on the radius"
        for side, mm in zip(SIDES, way.grind_mm, strict=True)
        if mm > 0
    )
    if way.ground_alike:
        ground = {f"grind both discs by {way.grind_mm[0]:.2f} mm on the radius": None}
    words += ground
    if way.trim_mm:
        words.append(f"trim the flange by {way.trim_mm:.1f} mm at one end")
    return "; ".join(words)


def _ring_words(one: Fitted, way: Way) -> list[str]:
    if not way.trued:
        return []
    words = []
    uneven = one.measured.out_of_round_mm or 0.0
    if uneven > 0:
        force = round_force_n(one.spec, uneven) / 1000
        words.append(f"press the ring round, {uneven:.2f} mm ({force:.1f} kN while held)")
    if abs(way.shift_mm) > 0.005:
        how = "stretch" if way.shift_mm > 0 else "shrink"
        words.append(f"{how} it by {abs(way.round_mm):.1f} mm round")
    return words


def new_pieces(refit: Refit, segments: int) -> int | None:
    """Discs and flange pieces cut anew; None where all are cut now."""
    if not refit.already_cut:
        return None
    return sum(one.way.new_pieces(segments) for one in refit.fitted if one.way)


def rings_trued(refit: Refit) -> int | None:
    """Rings that are pressed or resized for it."""
    if not refit.already_cut:
        return None
    return sum(one.way.trued for one in refit.fitted if one.way)


def trued_words(refit: Refit) -> list[str]:
    """Caution where rings are trued for blanks that were cut before."""
    names = [one.measured.ring for one in refit.fitted if one.way and one.way.trued]
    if not names:
        return []
    return [
        f"{noun(len(names), 'ring')} {', '.join(names)} "
        f"{noun(len(names), 'is', 'are')} pressed, stretched or shrunk so that drawn blanks "
        "fit: a ring in a press or clamp springs away when it is let go, one that is stretched can "
        "burst at its seam: chain it, stand beside it; tape it again before a disc goes in"
    ]


def way_limits(refit: Refit) -> list[tuple[str, str, str]]:
    """What, limit and source; none where all blanks are cut now."""
    if not refit.already_cut:
        return []
    return [("a drawn disc ground down", f"{GRIND_MM:g} mm on the radius", GRIND_SOURCE)]
