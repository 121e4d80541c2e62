"""Ways to a better axle: keys of a job with other values, the smallest change first."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from platewheel.parts.checks.wheelset.tools import lacking
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.bearing_table import BEARINGS, Bearing, bearings_by_bore
from platewheel.parts.wheelset.seats import axle_seats
from platewheel.parts.wheelset.spacers import hub_gap_mm

Keys = Mapping[str, Any]
Way = Callable[[Setting, Wheelset], Iterator[Keys]]
# bright bar in stock, and bores of bearings of one size
BORES_MM = (20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 75.0, 80.0, 90.0)
SIZES = ("diameter_mm", "journal_diameter_mm", "body_diameter_mm")
BODY_STEP_MM, LONGER_STEP_MM, NEARER_STEP_MM = 5.0, 5.0, 5.0
MOST_STEPS = 16
MOST_THICKER_MM = 20.0  # four sizes of bearing; by judgement
SOFTEST_FIRST = ("S235", "S275", "S355", "C45")
MATERIALS = ("bronze",)  # takes the most of those that are bought
RETENTIONS = ("key", "press", "weld")  # those that drive a wheel


def thicker_axle(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """A thicker axle in a larger bore, the tube's wall as it is or in the same share of the bore;
    what the job gives in diameters is as much thicker, a bearing that it names follows. Ball
    bearings in a loose wheel are larger ones, each in its bore."""
    if not made.turning and made.bearing is not None:
        for one in sorted(BEARINGS, key=lambda one: (one.bore_mm, one.outside_mm)):
            if one.kind == made.bearing.kind and one.bore_mm > made.bearing.bore_mm:
                yield from _in_hub(setting, one)
        return
    bore = setting.wheel.hub_bore_mm
    for size in BORES_MM:
        if size <= made.seat_diameter_mm:
            continue
        more = size - made.seat_diameter_mm
        keys: dict[str, Any] = {}
        for name in SIZES:
            given = getattr(setting.axle, name)
            if given is not None:
                keys[f"axle.{name}"] = given + more
        named = _of_series(made.bearing, made.journal_diameter_mm + more)
        if setting.axle.bearing_name is not None:
            if named is None:
                continue
            keys["axle.bearing_name"] = named
        yield from (hub | keys for hub in bored(setting, bore + more))


def bored(setting: Setting, bore_mm: float) -> Iterator[dict[str, Any]]:
    """Another bore, in a tube of the same wall, then in one whose wall is the same share of it, to
    whole mm."""
    wheel = setting.wheel
    keys = {"wheel.hub_bore_mm": bore_mm}
    if not wheel.has_tube:
        yield keys
        return
    now, outside = wheel.hub_bore_mm, wheel.hub_tube_outside_mm
    for wide in (bore_mm + outside - now, bore_mm * outside / now):
        yield keys | {"wheel.hub_tube_outside_mm": float(math.ceil(wide - 1e-9))}


def _of_series(bearing: Bearing | None, bore_mm: float) -> str | None:
    if bearing is None:
        return None
    like = (one for one in bearings_by_bore(bearing.kind, bore_mm) if one.series == bearing.series)
    return next((one.name for one in like), None)


def thicker_body(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """A thicker axle between the wheels, where the job has it thinner than in them."""
    if made.body_diameter_mm < made.seat_diameter_mm:
        yield from _body(made, made.seat_diameter_mm)


def shoulder(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """A body thicker than the seats, outside frames: the wheel stands against its shoulder."""
    if made.frames == "outside" and made.body_diameter_mm <= made.seat_diameter_mm:
        for more in (2.0, 4.0, 6.0, 10.0):
            yield {"axle.body_diameter_mm": made.seat_diameter_mm + more}


def _body(made: Wheelset, most_mm: float) -> Iterator[Keys]:
    size = BODY_STEP_MM * math.floor(made.body_diameter_mm / BODY_STEP_MM) + BODY_STEP_MM
    while size < most_mm:
        yield {"axle.body_diameter_mm": size}
        size += BODY_STEP_MM
    yield {"axle.body_diameter_mm": most_mm}


def thicker_journal(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Outside frames: journals as thick as the wheels' seats, by bearings that fit."""
    if made.frames != "outside" or setting.axle.bearing_name is not None:
        return
    for size in BORES_MM:
        if made.journal_diameter_mm < size <= made.seat_diameter_mm:
            yield {"axle.journal_diameter_mm": size}


def heavier_bearing(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Bearings of more load by name: on the same axle, or in a loose wheel in another bore."""
    now = made.bearing
    if now is None:
        return
    better = [one for one in BEARINGS if one.c0_kn > now.c0_kn and one.c_kn > now.c_kn]
    if made.turning:
        same = [one for one in better if one.bore_mm == made.journal_diameter_mm]
        for one in sorted(same, key=lambda one: (one.kind != now.kind, one.c_kn)):
            keys: dict[str, Any] = {"axle.bearing_name": one.name}
            yield keys if one.kind == now.kind else {"axle.bearing": one.kind} | keys
        return
    thick = [one for one in better if one.kind == now.kind and one.bore_mm >= now.bore_mm]
    for one in sorted(thick, key=lambda one: (one.outside_mm, one.c_kn)):
        yield from _in_hub(setting, one)


def _in_hub(setting: Setting, bearing: Bearing) -> Iterator[Keys]:
    """A ball bearing in a loose wheel's hub; what the job gives in diameters as its bore."""
    given = (name for name in SIZES if getattr(setting.axle, name) is not None)
    sizes = {f"axle.{name}": bearing.bore_mm for name in given}
    named = {"axle.bearing_name": bearing.name} | sizes
    yield from (hub | named for hub in bored(setting, bearing.outside_mm))


def rocking(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Inserts in the frame, whose housings have a ball seat."""
    if made.turning and setting.axle.bearing_kind != "insert":
        for one in bearings_by_bore("insert", made.journal_diameter_mm):
            keys: dict[str, Any] = {"axle.bearing": "insert"}
            named = setting.axle.bearing_name is not None
            yield keys | ({"axle.bearing_name": one.name} if named else {})


def nearer_bearings(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Frame bearings nearer to the wheels, as far as there is room."""
    seats = axle_seats(setting)
    gap = hub_gap_mm(setting.axle, seats)
    wide = made.axle_length_mm / 2 - made.bearing_centres_mm / 2  # half a bearing, and more
    now, (inner, outer) = made.bearing_centres_mm, made.hub_z_mm
    for step in range(1, MOST_STEPS):
        if made.frames == "outside":
            centres = math.floor(now) - step * NEARER_STEP_MM
            if centres < 2 * (outer + gap):
                return
        else:
            centres = math.ceil(now) + step * NEARER_STEP_MM
            if centres > 2 * (inner - gap) or wide < 0:
                return
        yield {"axle.bearing_centres_mm": float(centres)}


def other_steel(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Axle steels beyond the job's."""
    for steel in SOFTEST_FIRST[SOFTEST_FIRST.index(made.steel) + 1 :]:
        yield {"axle.steel": steel}


def other_retention(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Ways to hold a fixed wheel that the shop has the tools for."""
    if made.turning:
        for way in RETENTIONS:
            if way != made.retention and not lacking(setting.shop, way):
                yield {"axle.retention": way}


def thicker_and_other(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Both: a thicker axle, and another way to hold the wheels on it."""
    ways = list(other_retention(setting, made))
    for thicker in thicker_axle(setting, made):
        for way in ways:
            yield {**thicker, **way}


def thicker_and_longer(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Both: an axle some sizes thicker in a longer hub, where a set screw beside the weld has
    room. Beyond MOST_THICKER_MM another way to hold the wheel is less steel."""
    most = setting.wheel.hub_bore_mm + MOST_THICKER_MM
    for thicker in thicker_axle(setting, made):
        if thicker["wheel.hub_bore_mm"] > most:
            return
        for longer in longer_hub(setting, made):
            yield {**thicker, **longer}


def loose_wheels(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Wheels that turn on a dead axle, on bushes between bought collars."""
    if made.turning and setting.axle.bearing_name is None:
        yield {
            "axle.wheels_on_axle": "loose",
            "axle.retention": "collar",
            "axle.bearing": "bush",
        }


def longer_hub(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """A longer hub tube; a bush whose length the job gives grows with it."""
    wheel, axle = setting.wheel, setting.axle
    if not wheel.has_tube:
        return
    for step in range(1, MOST_STEPS):
        more = step * LONGER_STEP_MM
        keys = {"wheel.hub_tube_length_mm": wheel.hub_tube_length_mm + more}
        if not made.turning and axle.bush_length_mm is not None:
            keys["axle.bush_length_mm"] = axle.bush_length_mm + more
        yield keys


def longer_bush(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """A longer bush; in a loose wheel up to its hub's length."""
    if made.bush is None:
        return
    start = math.floor(made.bush.length_mm)
    for step in range(1, MOST_STEPS):
        yield {"axle.bush_length_mm": float(start + step * LONGER_STEP_MM)}


def shorter_bush(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """A shorter bush in the frame, in which an axle may lean further."""
    if made.bush is None or not made.turning:
        return
    for step in range(1, MOST_STEPS):
        length = math.ceil(made.bush.length_mm) - step * LONGER_STEP_MM
        if length < made.bush.bore_mm / 2:
            return
        yield {"axle.bush_length_mm": float(length)}


def other_bush(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """A material that bears more."""
    if made.bush is not None:
        for material in MATERIALS:
            if material != made.bush.material:
                yield {"axle.bush_material": material}


def thicker_throat(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Larger fillets, half a millimetre at a time."""
    for step in range(1, MOST_STEPS):
        yield {"wheel.weld_throat_mm": setting.wheel.weld_throat_mm + step / 2}


def hub_steel(setting: Setting, made: Wheelset) -> Iterator[Keys]:
    """Wheels of a stronger steel, their hubs with them."""
    for steel in ("S275", "S355"):
        if steel > setting.wheel.steel:
            yield {"wheel.steel": steel}
