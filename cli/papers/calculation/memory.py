"""What the calculation quotes from memory, or has no source for, in one list; and the standards
that it names."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from platewheel.cli.papers.calculation.symbols import symbol_of
from platewheel.cli.papers.calculation.terms import with_unit
from platewheel.parts.workings.of_checks import Working
from platewheel.parts.workings.terms import Quantity, all_below

DOUBTED: Final = re.compile(
    r"from memory|no source|common practice|our choice|by judgement|practice has no source", re.I
)
STANDARD: Final = re.compile(
    r"(?:EN ISO|EN|ISO|DIN|FEM|NEM|UIC|IIW|NMRA|ORE|49 CFR|TCRP Report|KBO)"
    r"(?: [A-Z]?-?\d[\d.]*(?:-\d+)*(?: ?[A-Z]\b)?(?::\d{4})?)?"
)
# ends of clauses, but not within brackets
_JOINTS: Final = re.compile(r"(?:; |(?<=\w)\. (?=[A-Z]))(?![^(]*\))")
SHORT: Final = 10  # letters that do not say by themselves what they are about
WHOLE: Final = 170  # letters of a source that is told whole, as its clauses need one another
MOST_NAMED: Final = 4  # checks that are named beside a clause; of more it says how many


@dataclass(frozen=True)
class Cited:
    """Something that is cited, and by what."""

    what: str
    by: tuple[str, ...]


def from_memory(found: Sequence[Working], more: Iterable[tuple[str, str]]) -> list[Cited]:
    """Each clause that says that it is from memory or has no source; `more` are sources of what is
    no check, each with the name of what cites it."""
    pairs = [(one.result.id, one.result.source) for one in found]
    for one in found:
        sides = tuple(side for side in (one.value, one.limit) if side is not None)
        for quantity in all_below(sides):
            pairs += [(one.result.id, text) for text in _words(quantity)]
    return _cited((name, clause) for name, text in (*pairs, *more) for clause in _clauses(text))


def standards(found: Sequence[Working], more: Iterable[tuple[str, str]]) -> list[Cited]:
    """Every standard that a source names, by its number."""
    pairs = [(one.result.id, one.result.source) for one in found]
    return sorted(
        _cited(
            (name, standard)
            for name, text in (*pairs, *more)
            for standard in STANDARD.findall(text)
            if standard.strip() not in ("EN", "ISO", "DIN", "ORE")
        ),
        key=lambda one: one.what,
    )


def _words(one: Quantity) -> Iterator[str]:
    """Sources of a formula and of a constant, the constant with its name and value."""
    if one.kind == "constant" and DOUBTED.search(one.says):
        whole = one.says.replace(";", ",")
        yield f"{symbol_of(one.name)} = {with_unit(one.value, one.unit, 'mm')}: {whole}"
    elif one.kind == "found" and not one.home:
        yield one.says
    if one.source:
        yield f"{symbol_of(one.name)}: {one.source}"


def _clauses(text: str) -> list[str]:
    """Those of a source that doubt it; a short one, or one that doubts all of it, whole."""
    if len(text) <= WHOLE:
        return [text] if DOUBTED.search(text) else []
    parts = _JOINTS.split(text)
    found = []
    for k, part in enumerate(parts):
        if not DOUBTED.search(part):
            continue
        alone = DOUBTED.sub("", part).strip(" ,;:.()")
        if alone == "all":
            return [text]
        # a few words are about what stands before them
        found.append(f"{parts[k - 1]}; {part}" if k and len(alone) < SHORT else part)
    return found


def _cited(pairs: Iterable[tuple[str, str]]) -> list[Cited]:
    by: dict[str, list[str]] = {}
    for name, what in pairs:
        names = by.setdefault(what.strip(" ."), [])
        if name not in names:
            names.append(name)
    return [Cited(what, _some(names)) for what, names in by.items()]


def _some(names: list[str]) -> tuple[str, ...]:
    if len(names) <= MOST_NAMED + 1:
        return tuple(names)
    return (*names[:MOST_NAMED], f"and {len(names) - MOST_NAMED} more")
