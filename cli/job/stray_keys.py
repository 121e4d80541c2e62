"""Keys and sections that are not there: where they belong, or which was meant."""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from typing import Any

from platewheel.parts.base.faults import Fault
from platewheel.parts.base.plain_values import odd_values
from platewheel.parts.base.spec_model import Spec, find_faults, unknown_key

Kinds = Mapping[str, type[Spec]]
SIZES = ("length_mm", "width_mm")  # of a plate; a left-over piece has corners
NEARER = 0.1  # by so much is a key of another section more alike before it is told
LEAST_ALIKE = 0.7


def key_faults(
    name: str, row: Mapping[str, Any], kinds: Kinds, repeated: Collection[str], rules: bool = True
) -> Iterator[Fault]:
    """Faults of a section's keys, those that belong elsewhere sent there; keys without section."""
    told: set[str] = set()
    corners = _as_corners(name, row)
    if corners:
        told |= {"outline", *SIZES}
        instead = f"outline = {corners} in place of {' and '.join(SIZES)}"
        yield Fault("outline", None, "corners [x, y] of the piece, in mm", instead)
    for fault in find_faults(kinds[name], row, rules):
        key = fault.key
        if corners and key in told:
            continue
        told.add(key)
        stray = key in row and key not in kinds[name].model_fields
        yield stray_key(key, row[key], name, kinds, repeated) if stray else fault
    yield from (one for one in odd_values(kinds[name], row) if one.key not in told)


def _as_corners(name: str, row: Mapping[str, Any]) -> list[list[float]]:
    """Of a left-over piece told by two sizes, as a plate is: its corners; else none."""
    if name != "offcut" or "outline" in row or not {*SIZES} <= row.keys():
        return []
    long, wide = (row[key] for key in SIZES)
    if not all(isinstance(one, int | float) and not isinstance(one, bool) for one in (long, wide)):
        return []
    return [[0, 0], [long, 0], [long, wide], [0, wide]]


def stray_key(key: str, value: Any, name: str, kinds: Kinds, repeated: Collection[str]) -> Fault:
    """Fault of a key that is not of the section `name`: misspelt, of another unit or section."""
    homes = [one for one, kind in kinds.items() if key in kind.model_fields and one != name]
    if homes:
        where = " or ".join(bracketed(one, repeated) for one in homes)
        return Fault(key, value, f"inside {where}", f"move it below {where}")
    own = unknown_key(key, value, list(kinds[name].model_fields))
    if own.allowed.startswith("known keys"):
        likeness, meant, home = max(_alike(key, name, kinds), default=(0.0, "", name))
        if home != name and likeness > LEAST_ALIKE:
            where = bracketed(home, repeated)
            return replace(own, advice=f"did you mean {meant}, below {where}?")
    return own


def _alike(key: str, name: str, kinds: Kinds) -> Iterator[tuple[float, str, str]]:
    """Keys that are as alike as any that is told: how much, and of which section; in the section
    `name` itself a less alike one is as near."""
    matcher = difflib.SequenceMatcher(None, "", key.lower())
    for home, kind in kinds.items():
        for one in kind.model_fields:
            matcher.set_seq1(one)
            bounds = matcher.real_quick_ratio, matcher.quick_ratio  # cheap, and never too low
            if all(bound() > LEAST_ALIKE for bound in bounds):
                yield matcher.ratio() - NEARER * (home != name), one, home


def section_faults(
    table: Mapping[str, Any], kinds: Kinds, repeated: Collection[str], needed: Collection[str]
) -> Iterator[Fault]:
    """Sections that are unknown, written with the wrong brackets, or `needed` and not there."""
    for name, value in table.items():
        if name not in kinds:
            yield stray_section(name, value, kinds, repeated)
        elif name not in repeated and not isinstance(value, dict):
            one = f"one section [{name}]"
            yield Fault(name, value, one, f"write [{name}] above its keys")
        elif name in repeated and not (
            isinstance(value, list) and all(isinstance(row, dict) for row in value)
        ):
            yield Fault(name, value, f"sections [[{name}]]", f"write [[{name}]] above each one")
    for name in needed:
        if name not in table:
            start = "see the file that `platewheel new` writes"
            yield Fault(name, None, f"a section [{name}]", start)


def bracketed(name: str, repeated: Collection[str]) -> str:
    """The head of a section."""
    return f"[[{name}]]" if name in repeated else f"[{name}]"


def stray_section(name: str, value: Any, kinds: Kinds, repeated: Collection[str]) -> Fault:
    """Fault of a section that is not there, or of a key above all sections."""
    known = [*kinds]
    if not isinstance(value, dict | list):
        homes = [one for one, kind in kinds.items() if name in kind.model_fields]
        if homes:
            where = " or ".join(bracketed(one, repeated) for one in homes)
            return Fault(name, value, f"inside {where}", f"move it below {where}")
    near = difflib.get_close_matches(name.lower(), known, n=1, cutoff=0.4)
    shown = "a section" if isinstance(value, dict | list) else value
    advice = f"did you mean {near[0]}?" if near else unknown_key(name, shown, known).advice
    return Fault(name, shown, f"sections {', '.join(known)}", advice)
