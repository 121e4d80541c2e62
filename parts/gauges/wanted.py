"""The gauges of a setting that a job asks for, numbered; all that cannot be made told at once."""

from __future__ import annotations

from collections.abc import Callable

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.gauges import back_to_back, flange, flangeway, track, wear
from platewheel.parts.gauges.gauge import TRUE_MM, Gauge, Stuff
from platewheel.parts.gauges.spec import GaugesSpec
from platewheel.parts.setting.setting import Setting

MAKERS: tuple[tuple[str, Callable[[Setting, Stuff], Gauge | None]], ...] = (
    ("back_to_back", back_to_back.back_to_back_gauge),
    ("track", track.track_gauge),
    ("flange", flange.flange_gauge),
    ("wear", wear.wear_gauge),
    ("flangeway", flangeway.flangeway_gauge),
    ("flangeway", flangeway.check_rail_gauge),
)
NAMES = (
    back_to_back.NAME,
    track.NAME,
    flange.NAME,
    wear.NAME,
    flangeway.NAME,
    flangeway.CHECK_NAME,
)
HOW_TO_MAKE = (
    f"Cut outside of the lines and file to them, true to {TRUE_MM:g} mm by a caliper: a torch's "
    "edge is no gauge, nor is a paper template. Stamp the number, and GO and NO GO at their ends; "
    "the half-round bites clear the inward corners, leave them."
)


def wanted_gauges(spec: GaugesSpec, setting: Setting, kerf_mm: float) -> tuple[Gauge, ...]:
    """The gauges asked for, by number; none without a thickness. Raises: SpecError with every
    one that cannot be made."""
    if spec.thickness_mm is None:
        return ()
    stuff = Stuff(spec.thickness_mm, kerf_mm)
    made: list[Gauge] = []
    faults: list[Fault] = []
    for key, maker in MAKERS:
        if not getattr(spec, key):
            continue
        try:
            gauge = maker(setting, stuff)
        except SpecError as error:
            faults += error.faults
        else:
            made += [gauge] if gauge else []
    if faults:
        raise SpecError(dict.fromkeys(faults))
    return tuple(made)
