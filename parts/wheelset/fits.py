"""Which ISO 286 fits a wheelset is made to, by place; common practice, no source, where no other.

Holes "bearing-bore" and "insert-bore" and the shaft "bearing-outside" are the bearing's own
tolerances, see iso_fits.
"""

from __future__ import annotations

from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.wheelset.diameters import Seats

Fit = tuple[str, float, str, str]  # place, size mm, hole, shaft

_TURNED = {"weld": ("H8", "h9"), "key": ("H7", "k6"), "screws": ("H7", "h6"), "press": ("H7", "s6")}
_BRIGHT = {"weld": ("H8", "h9"), "key": ("H7", "h6"), "screws": ("H7", "h6"), "press": ("H7", "s6")}
# bright bar that is not turned has the tolerance it is bought with: h9 drawn, h6 ground


def plain_bar(seats: Seats) -> bool:
    """Whether the axle is one diameter throughout, so that bright bar can be left as bought."""
    return seats.seat_mm == seats.journal_mm == seats.body_mm


def wheelset_fits(axle: AxleSpec, seats: Seats) -> tuple[Fit, ...]:
    """Fits by place, from the wheel outwards."""
    if axle.turning:
        return _turning_fits(axle, seats)
    return _dead_fits(seats)


def _turning_fits(axle: AxleSpec, seats: Seats) -> tuple[Fit, ...]:
    ball = seats.bearing is not None and seats.bearing.kind == "deep-groove"
    plain = plain_bar(seats) and axle.held_by != "press" and not ball
    hole, shaft = (_BRIGHT if plain else _TURNED)[axle.held_by]
    wheel = ("wheel on axle", seats.seat_mm, hole, shaft)
    if seats.bush is not None:
        bush = seats.bush
        running = ("F8", shaft) if plain else ("H8", "f7")
        return (
            wheel,
            ("axle in bush", bush.bore_mm, *running),
            ("bush in frame", bush.outside_mm, "H7", "p6"),
        )
    bearing = seats.bearing
    assert bearing is not None
    if bearing.kind == "insert":  # held by its own screws: a sliding fit
        return (
            wheel,
            ("bearing on axle", bearing.bore_mm, "insert-bore", shaft if plain else "h6"),
        )
    # the inner ring turns against the load and must not creep, so a plain bar is turned or ground
    # there too; the outer ring may slide
    return (
        wheel,
        ("bearing on axle", bearing.bore_mm, "bearing-bore", "k6"),
        ("bearing in frame", bearing.outside_mm, "H7", "bearing-outside"),
    )


def _dead_fits(seats: Seats) -> tuple[Fit, ...]:
    if seats.bush is not None:
        bush = seats.bush
        return (
            ("axle in bush", bush.bore_mm, "F8", "h9"),  # bright drawn bar as bought
            ("bush in hub", bush.outside_mm, "H7", "p6"),
        )
    bearing = seats.bearing
    assert bearing is not None
    # the outer ring turns with the wheel and must not creep; the inner ring may slide
    return (
        ("bearing on axle", bearing.bore_mm, "bearing-bore", "h6"),
        ("bearing in hub", bearing.outside_mm, "N7", "bearing-outside"),
    )
