"""The gauges of a setting that a job asks for, numbered; all that cannot be made told at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.checks.trying import with_keys
from platewheel.parts.gauges import back_to_back, flange, flangeway, track, wear
from platewheel.parts.gauges.gauge import KERF, TRUE_MM, Gauge, GaugeError, Keys, Stuff
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
    made, refused = _made(spec, setting, stuff)
    if refused:
        raise SpecError(dict.fromkeys(_told(k, spec, setting, stuff, refused) for k in refused))
    return tuple(made)


def _made(
    spec: GaugesSpec, setting: Setting, stuff: Stuff
) -> tuple[list[Gauge], dict[int, GaugeError]]:
    """What can be made, and what cannot by its place in MAKERS."""
    made: list[Gauge] = []
    refused: dict[int, GaugeError] = {}
    for k, (key, maker) in enumerate(MAKERS):
        if not getattr(spec, key):
            continue
        try:
            gauge = maker(setting, stuff)
        except GaugeError as error:
            refused[k] = error
        else:
            made += [gauge] if gauge else []
    return made, refused


def _told(
    k: int, spec: GaugesSpec, setting: Setting, stuff: Stuff, refused: Mapping[int, GaugeError]
) -> Fault:
    """Why the gauge is refused, advising values only with which it is made, and every other that
    was."""
    for keys in refused[k].tries:
        other = _with(setting, stuff, keys)
        if other is None:
            continue
        still = _made(spec, *other)[1].keys()
        if k not in still and still <= refused.keys():
            return refused[k].told(keys)
    return refused[k].told(None)


def _with(setting: Setting, stuff: Stuff, keys: Keys) -> tuple[Setting, Stuff] | None:
    """With other values of keys; None where rules of their sections refuse them."""
    found: Setting | None = setting
    for key, value in keys.items():
        if key == KERF:
            assert isinstance(value, float)
            stuff = replace(stuff, kerf_mm=value)
        elif found is not None:
            found = with_keys(found, {key: value})
    return None if found is None else (found, stuff)
