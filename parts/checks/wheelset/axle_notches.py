"""Where an axle may crack: under what holds the wheels, under bearings, at shoulders, and plain."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import Wheelset
from platewheel.parts.wheelset.axle_fatigue import (
    KEY_KT,
    KEY_KTS,
    notch_factor,
    shoulder_kt,
    shoulder_kts,
)

CORNER_SHARE = 0.02  # of the diameter: corner of the keyway that KEY_KT is for
PRESS_KF = 2.0  # press fit, and a ball bearing's ring on k6; Peterson, from memory
# EN 1993-1-9:2005, table 8.5, cruciform joint, toe: length of the hub with its fillets, up to mm,
# and the category; a round axle in bending taken as the plate. From memory
WELD_CATEGORIES = ((50.0, 80.0), (80.0, 71.0), (100.0, 63.0), (120.0, 56.0), (float("inf"), 40.0))


@dataclass(frozen=True, kw_only=True)
class Notch:
    """A place where the axle may crack: its thinner diameter and fatigue notch factors in bending
    and torsion, or the category of its weld, N/mm2."""

    where: str
    within_mm: tuple[float, float]
    diameter_mm: float
    kf: float = 1.0
    kfs: float = 1.0
    weld_category_n_mm2: float | None = None


def axle_notches(setting: Setting, made: Wheelset, rm_n_mm2: float) -> Iterator[Notch]:
    """Every place where an axle may crack."""
    for z0, z1, d in made.steps:
        yield Notch(where=f"where the axle has {d:g} mm", within_mm=(z0, z1), diameter_mm=d)
    for (_, z, d), (_, _, other) in pairwise(made.steps):
        small, big = sorted((d, other))
        kt = (shoulder(big, small, made.fillet_mm) for shoulder in (shoulder_kt, shoulder_kts))
        bent, turned = kt
        yield Notch(
            where=f"at the shoulder from {big:g} to {small:g} mm",
            within_mm=(z, z),
            diameter_mm=small,
            kf=notch_factor(bent, made.fillet_mm, rm_n_mm2),
            kfs=notch_factor(turned, made.fillet_mm, rm_n_mm2, torsion=True),
        )
    for sign in (-1, 1):
        z0, z1 = sorted(sign * z for z in made.hub_z_mm)
        if made.retention == "weld":
            yield from (_weld(setting, made, z) for z in (z0, z1))
        else:
            yield from _held(made, rm_n_mm2, (z0, z1))
    yield from _under_bearings(made, rm_n_mm2)


def _weld(setting: Setting, made: Wheelset, end_z_mm: float) -> Notch:
    """The fillet at one end of a hub; where the axle steps there its toe is on the thinner part."""
    leg, (z0, z1) = setting.wheel.weld_leg_mm, made.hub_z_mm
    long, ends = z1 - z0 + 2 * leg, (end_z_mm - leg, end_z_mm + leg)
    return Notch(
        where="where the wheel is held by weld",
        within_mm=ends,
        diameter_mm=min(d for a, b, d in made.steps if a < ends[1] and b > ends[0]),
        weld_category_n_mm2=next(category for most, category in WELD_CATEGORIES if long <= most),
    )


def _held(made: Wheelset, rm_n_mm2: float, hub_mm: tuple[float, float]) -> Iterator[Notch]:
    where, d = f"where the wheel is held by {made.retention}", made.seat_diameter_mm
    if made.retention == "press":
        yield Notch(where=where, within_mm=hub_mm, diameter_mm=d, kf=PRESS_KF, kfs=PRESS_KF)
    elif made.retention == "collar":
        yield from _dimples(made, rm_n_mm2, where)
    else:
        kf, kfs = _keyed(d, rm_n_mm2)
        yield Notch(where=where, within_mm=hub_mm, diameter_mm=d, kf=kf, kfs=kfs)


def _dimples(made: Wheelset, rm_n_mm2: float, where: str) -> Iterator[Notch]:
    """Screws of the collars beside loose wheels."""
    kf, kfs = _keyed(made.seat_diameter_mm, rm_n_mm2)
    for name, _, _, length, z in made.spacers:
        if name.startswith("collar"):
            ends = (z - length / 2, z + length / 2)
            d = next(d for z0, z1, d in made.steps if z0 <= z <= z1)
            yield Notch(where=where, within_mm=ends, diameter_mm=d, kf=kf, kfs=kfs)


def _under_bearings(made: Wheelset, rm_n_mm2: float) -> Iterator[Notch]:
    """A ring pressed on a turning axle, or the dimples of an insert's own screws."""
    bearing = made.bearing
    if bearing is None or not made.turning:
        return
    d = made.journal_diameter_mm
    kf, kfs = _keyed(d, rm_n_mm2) if bearing.kind == "insert" else (PRESS_KF, PRESS_KF)
    for z in made.bearing_z_mm:
        ends = (z - bearing.width_mm / 2, z + bearing.width_mm / 2)
        where = f"under {bearing.name}"
        yield Notch(where=where, within_mm=ends, diameter_mm=d, kf=kf, kfs=kfs)


def _keyed(diameter_mm: float, rm_n_mm2: float) -> tuple[float, float]:
    """Of a keyway, and of a set screw's dimple, taken as one."""
    corner = CORNER_SHARE * diameter_mm
    return notch_factor(KEY_KT, corner, rm_n_mm2), notch_factor(
        KEY_KTS, corner, rm_n_mm2, torsion=True
    )
