"""Diameters along an axle: seat in the hub, journal, body, and the bearing or bush they take."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.bearing_table import (
    BEARINGS,
    Bearing,
    bearing_named,
    bearings_by_bore,
    bearings_by_outside,
    bores_mm,
    outsides_mm,
)
from platewheel.parts.wheelset.diameters import BUSH_WALL_MM, Bush, Seats
from platewheel.parts.wheelset.shoulders import shoulder_faults

LEAST_MM, MOST_MM = 10.0, 120.0  # axle in the hubs: what the tables of fits and bearings span
BUSH_LENGTH_SHARE = 1.5  # of its bore; common practice, no source


def hub_length_mm(setting: Setting) -> float:
    """Length of the wheel's hub on the axle: the tube, or outside the pair of discs."""
    wheel = setting.wheel
    if wheel.has_tube:
        return wheel.hub_tube_length_mm
    return wheel.tread_width_mm - wheel.disc_field_inset_mm - wheel.disc_gauge_inset_mm


def axle_seats(setting: Setting) -> Seats:
    """Diameters and bearing, as given or as follow from the hub. Raises: SpecError."""
    seats = _turning(setting) if setting.axle.turning else _dead(setting)
    if not LEAST_MM <= seats.seat_mm <= MOST_MM:
        raise SpecError(
            [
                Fault(
                    "wheel.hub_bore_mm",
                    setting.wheel.hub_bore_mm,
                    f"one for an axle of {LEAST_MM:g} to {MOST_MM:g} mm; this asks for "
                    f"{seats.seat_mm:g}",
                    "a hub bore in that range, or a sleeve in the hub",
                )
            ]
        )
    faults = shoulder_faults(setting.axle, seats)
    if faults:
        raise SpecError(faults)
    return seats


def _turning(setting: Setting) -> Seats:
    axle, bore = setting.axle, setting.wheel.hub_bore_mm
    seat = bore if axle.diameter_mm is None else axle.diameter_mm
    if abs(seat - bore) > 1e-6:
        raise SpecError(
            [
                Fault(
                    "axle.diameter_mm",
                    seat,
                    f"the hub bore, {bore:g} mm, when wheels are fixed",
                    f"leave it out, or wheel.hub_bore_mm = {seat:g}",
                )
            ]
        )
    if axle.bearing_kind == "bush":
        journal = axle.journal_diameter_mm or seat
        return Seats(seat, journal, _body(axle, seat, journal), None, _frame_bush(axle, journal))
    bearing = _on_journal(axle, seat)
    journal = bearing.bore_mm
    return Seats(seat, journal, _body(axle, seat, journal), bearing, None)


def _on_journal(axle: AxleSpec, seat_mm: float) -> Bearing:
    """The bearing on a turning axle: by name, by the journal, or the nearest that goes on."""
    kind, journal = axle.bearing_kind, axle.journal_diameter_mm
    bores = bores_mm(kind)
    if axle.bearing_name is not None:
        named = _named(axle, axle.bearing_name)
        if journal is not None and abs(journal - named.bore_mm) > 1e-6:
            raise _fault(
                "journal_diameter_mm",
                journal,
                f"the bore of {named.name}, {named.bore_mm:g} mm",
                "leave it out",
            )
        return named
    if journal is None:
        outside = axle.frames == "outside"
        fit = [b for b in bores if (b <= seat_mm + 1e-6 if outside else b >= seat_mm - 1e-6)]
        if not fit:
            where = "not above" if outside else "not below"
            raise _fault(
                "bearing",
                kind,
                f"one with a bore {where} the axle's {seat_mm:g} mm; {kind} bores are "
                f"{_listed(bores)} mm",
                "bearings of another kind, bushes, or another wheel.hub_bore_mm",
            )
        journal = fit[-1] if outside else fit[0]
    fitting = bearings_by_bore(kind, journal)
    if not fitting:
        near = min(bores, key=lambda b: abs(b - journal))
        raise _fault(
            "journal_diameter_mm",
            journal,
            f"a bore of {kind} bearings: {_listed(bores)} mm",
            f"journal_diameter_mm = {near:g}",
        )
    return fitting[0]


def _dead(setting: Setting) -> Seats:
    axle, bore = setting.axle, setting.wheel.hub_bore_mm
    if not setting.wheel.has_tube:
        raise SpecError(
            [
                Fault(
                    "wheel.hub_tube_length_mm",
                    setting.wheel.hub_tube_length_mm,
                    "a hub tube, to hold the bearings of a loose wheel",
                    'a tube, or axle.wheels_on_axle = "fixed"',
                )
            ]
        )
    bearing = bush = None
    if axle.bearing_kind == "bush":
        bush = _hub_bush(setting)
        seat = bush.bore_mm
    else:
        bearing = _in_hub(axle, bore)
        seat = bearing.bore_mm
        if axle.diameter_mm is not None and abs(axle.diameter_mm - seat) > 1e-6:
            raise _fault(
                "diameter_mm",
                axle.diameter_mm,
                f"the bore of {bearing.name}, {seat:g} mm",
                "leave it out, or name another bearing",
            )
    journal = axle.journal_diameter_mm or seat
    return Seats(seat, journal, _body(axle, seat, journal), bearing, bush)


def _in_hub(axle: AxleSpec, bore_mm: float) -> Bearing:
    if axle.bearing_name is not None:
        named = _named(axle, axle.bearing_name)
        fitting = [named] if abs(named.outside_mm - bore_mm) < 1e-6 else []
    else:
        fitting = [
            b
            for b in bearings_by_outside("deep-groove", bore_mm)
            if axle.diameter_mm is None or abs(b.bore_mm - axle.diameter_mm) < 1e-6
        ]
    if not fitting:
        sizes = outsides_mm("deep-groove")
        near = min(sizes, key=lambda d: abs(d - bore_mm))
        raise _fault(
            "bearing_name" if axle.bearing_name else "bearing",
            axle.bearing_name or axle.bearing_kind,
            f"a bearing whose outside is the hub bore, {bore_mm:g} mm, and whose bore is the axle; "
            f"outsides are {_listed(sizes)} mm",
            f'wheel.hub_bore_mm = {near:g}, or bearing = "bush"',
        )
    return fitting[0]


def _named(axle: AxleSpec, name: str) -> Bearing:
    found = bearing_named(name)
    if found is None or found.kind != axle.bearing_kind:
        names = [b.name for b in BEARINGS if b.kind == axle.bearing_kind]
        near = difflib.get_close_matches(name.strip().upper(), names, n=1, cutoff=0.0)[0]
        allowed = f"{axle.bearing_kind} bearings: {', '.join(names)}"
        raise _fault("bearing_name", name, allowed, f'bearing_name = "{near}", or leave it out')
    return found


def _frame_bush(axle: AxleSpec, journal_mm: float) -> Bush:
    length = axle.bush_length_mm or BUSH_LENGTH_SHARE * journal_mm
    return Bush(journal_mm, length, axle.bush_wall_mm or BUSH_WALL_MM, axle.bush_material)


def _hub_bush(setting: Setting) -> Bush:
    axle, bore = setting.axle, setting.wheel.hub_bore_mm
    wall = axle.bush_wall_mm
    if wall is None:
        wall = BUSH_WALL_MM if axle.diameter_mm is None else (bore - axle.diameter_mm) / 2
    inside = bore - 2 * wall
    if wall < 1 or inside < 10:
        raise _fault(
            "diameter_mm" if axle.diameter_mm is not None else "bush_wall_mm",
            axle.diameter_mm if axle.diameter_mm is not None else wall,
            f"a bush of at least 1 mm wall round an axle of at least 10 mm in the hub bore, "
            f"{bore:g} mm",
            "a thinner axle or bush, or a larger wheel.hub_bore_mm",
        )
    if axle.diameter_mm is not None and abs(inside - axle.diameter_mm) > 1e-6:
        raise _fault(
            "bush_wall_mm",
            wall,
            f"half of hub bore less axle, {(bore - axle.diameter_mm) / 2:g} mm",
            "leave bush_wall_mm or diameter_mm out",
        )
    hub = hub_length_mm(setting)
    length = axle.bush_length_mm or hub
    if length > hub + 1e-6:
        raise _fault("bush_length_mm", length, f"at most the hub tube, {hub:g} mm", "leave it out")
    return Bush(inside, length, wall, axle.bush_material)


def _body(axle: AxleSpec, seat_mm: float, journal_mm: float) -> float:
    if axle.body_diameter_mm is not None:
        return axle.body_diameter_mm
    return seat_mm if axle.frames == "outside" else max(seat_mm, journal_mm)


def _fault(key: str, value: object, allowed: str, advice: str) -> SpecError:
    return SpecError([Fault(f"axle.{key}", value, allowed, advice)])


def _listed(sizes: Iterable[float]) -> str:
    return ", ".join(f"{size:g}" for size in sizes)
