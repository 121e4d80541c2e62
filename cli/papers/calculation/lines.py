"""Lines of the calculation: what two checks share once, in a chapter of its own, and what is left
of each check."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from platewheel.cli.papers.calculation.meanings import meaning_of
from platewheel.cli.papers.calculation.published import checked_against
from platewheel.cli.papers.calculation.symbols import in_turn, symbol_of
from platewheel.cli.papers.calculation.terms import digits, term_text, with_unit
from platewheel.parts.base.units import Units
from platewheel.parts.workings.of_checks import Working
from platewheel.parts.workings.terms import Of, Quantity, Term, When, all_below, needs

ROOMS = {  # of `parts` -> heading in the chapter of what checks share
    "setting": "Sizes of track, wagon and wheel",
    "wheel": "Sizes of track, wagon and wheel",
    "geometry": "Sizes of track, wagon and wheel",
    "loads": "Loads",
    "wagon": "Loads",
}
REST = "Limits, stresses and what else several checks take"


@dataclass(frozen=True)
class Line:
    """One step: its number, the equation, what it is, and what stands in it for the first time."""

    number: str
    equation: str
    says: str
    given: tuple[str, ...]


@dataclass(frozen=True)
class Told:
    """A side of a check as its last line has it."""

    symbol: str
    value: str


@dataclass(frozen=True)
class CheckLines:
    """The lines that only one check has, and its two sides."""

    number: int
    working: Working
    lines: tuple[Line, ...]
    value: Told | None
    limit: Told | None


@dataclass(frozen=True)
class Calculation:
    """The chapter of what is shared, by heading, and the checks in the order of their numbers."""

    shared: tuple[tuple[str, tuple[Line, ...]], ...]
    checks: tuple[CheckLines, ...]


def calculation_lines(
    found: Sequence[Working], numbers: Sequence[int], units: Units
) -> Calculation:
    """Of all workings of a setting, in their order; `numbers` are those of the checks."""
    return _Writer(found, numbers, units).whole()


def is_line(one: Quantity) -> bool:
    """Whether it has a line of its own: what is worked out, and what a procedure found."""
    return one.kind == "worked" or (one.kind == "found" and bool(one.home))


class _Writer:
    def __init__(self, found: Sequence[Working], numbers: Sequence[int], units: Units) -> None:
        self.found, self.check_numbers, self.units = found, numbers, units
        self.same = _alike(all_below(tuple(side for one in found for side in _sides(one))))
        self.below = [self._below(one) for one in found]
        uses: dict[int, int] = {}
        for quantities in self.below:
            for one in quantities:
                uses[id(one)] = uses.get(id(one), 0) + 1
        self.shared = {one for one, count in uses.items() if count > 1}
        self.symbols: dict[int, str] = {}
        self.numbers: dict[int, str] = {}
        self.taken: set[str] = set()

    def whole(self) -> Calculation:
        every = {id(one): one for some in self.below for one in some if id(one) in self.shared}
        for one in every.values():
            self.symbols[id(one)] = in_turn(symbol_of(one.name), self.taken)
        by_heading: dict[str, list[Quantity]] = {}
        for heading in (*dict.fromkeys(ROOMS.values()), REST):
            by_heading[heading] = []
        for one in every.values():
            if is_line(one):
                by_heading[ROOMS.get(_room(one), REST)].append(one)
        for k, one in enumerate((one for some in by_heading.values() for one in some), 1):
            self.numbers[id(one)] = f"L{k}"
        shared = tuple((heading, self._lines(some)) for heading, some in by_heading.items() if some)
        checks = tuple(self._check(k, one) for k, one in enumerate(self.found))
        return Calculation(shared, checks)

    def _below(self, one: Working) -> list[Quantity]:
        """All that a check needs, alike ones once."""
        seen = {}
        for quantity in all_below(_sides(one)):
            alike = self.same[id(quantity)]
            seen[id(alike)] = alike
        return list(seen.values())

    def _check(self, place: int, one: Working) -> CheckLines:
        number = self.check_numbers[place]
        below = self.below[place]
        taken = {self.symbols[id(one)] for one in below if id(one) in self.shared}
        own: list[Quantity] = []
        for quantity in below:
            if id(quantity) not in self.shared:
                self.symbols[id(quantity)] = in_turn(symbol_of(quantity.name), taken)
                if is_line(quantity):
                    own.append(quantity)
        for k, quantity in enumerate(own, 1):
            self.numbers[id(quantity)] = f"{number}.{k}"
        told = set(map(id, own))
        lines = self._lines(own)
        value, limit = self._side(one.value, told), self._side(one.limit, told)
        return CheckLines(number, one, lines, value, limit)

    def _side(self, one: Quantity | None, own: set[int]) -> Told | None:
        if one is None:
            return None
        quantity = self.same[id(one)]
        untold = quantity.kind in ("constant", "found") and not quantity.home
        whence = "" if untold or id(quantity) in own else self._whence(quantity)
        return Told(self.symbols[id(quantity)], whence)

    def _lines(self, quantities: Sequence[Quantity]) -> tuple[Line, ...]:
        own, told = set(map(id, quantities)), set[int]()
        lines = []
        for one in quantities:
            first = []
            for below in needs(one):
                alike = self.same[id(below)]
                if id(alike) not in own and id(alike) not in told:
                    told.add(id(alike))
                    first.append(alike)
            given = tuple(self._given(first))
            lines.append(Line(self.numbers[id(one)], self._equation(one), self._says(one), given))
        return tuple(lines)

    def _equation(self, one: Quantity) -> str:
        symbol, result = self.symbols[id(one)], with_unit(one.value, one.unit, self.units)
        if one.term is None:
            return f"{symbol} = {result}"
        letters = term_text(one.term, lambda other: self.symbols[id(self.same[id(other)])])
        numbers = term_text(one.term, lambda other: digits(other.value))
        return f"{symbol} = {letters} = {numbers} = {result}"

    def _says(self, one: Quantity) -> str:
        meaning = meaning_of(one)
        told = [meaning] if meaning else []
        if one.kind == "found":
            with_what = [
                f"{self.symbols[id(self.same[id(other)])]} = "
                f"{with_unit(other.value, other.unit, self.units)}"
                for other in one.inputs
            ]
            with_what += one.beside
            told.append("by procedure" + (f", from {', '.join(with_what)}" if with_what else ""))
        if one.when:
            told.append("taken as " + " and ".join(map(self._reason, dict.fromkeys(one.when))))
        if one.source:
            told.append(f"Source: {one.source}")
        if outside := checked_against(one.name):
            told.append(f"checked against {outside}")
        return "; ".join(told)

    def _reason(self, why: When) -> str:
        """Why this line is taken: `a ≤ b: 3 ≤ 4`; a name that no line has by its symbol alone."""
        letters, numbers = (
            " ".join((term_text(why.left, told), why.sign, term_text(why.right, told)))
            for told in (self._called, lambda other: digits(other.value))
        )
        return letters if letters == numbers else f"{letters}: {numbers}"

    def _called(self, one: Quantity) -> str:
        alike = self.same.get(id(one))
        known = None if alike is None else self.symbols.get(id(alike))
        of_a_table = one.kind == "found" and not one.home
        return known or (digits(one.value) if of_a_table else symbol_of(one.name))

    def _given(self, first: Sequence[Quantity]) -> Iterator[str]:
        """Quantities where they are met first: what each is and where it comes from, those of one
        place together."""
        for whence, some in groupby(first, key=self._whence):
            told = [
                f"{self.symbols[id(one)]} = {with_unit(one.value, one.unit, self.units)}"
                for one in some
            ]
            yield ", ".join([*told, whence] if whence else told)

    def _whence(self, one: Quantity) -> str:
        if is_line(one):
            return f"line {self.numbers[id(one)]}"
        if one.kind == "found" and one.beside:
            return f"{one.says} ({', '.join(one.beside)})"
        return one.says


def _sides(one: Working) -> tuple[Quantity, ...]:
    return tuple(side for side in (one.value, one.limit) if side is not None)


def _room(one: Quantity) -> str:
    parts = one.home.split(".")
    return parts[2] if len(parts) > 2 else ""


def _alike(every: Sequence[Quantity]) -> dict[int, Quantity]:
    """For each quantity the first that is the same in name, term and value."""
    same: dict[int, Quantity] = {}
    first: dict[object, Quantity] = {}
    for one in every:  # what it needs stands before it
        key = (
            (one.name, one.kind, one.value, one.unit, one.says, one.beside),
            _form(one.term, same),
            tuple(id(same[id(other)]) for other in one.inputs),
        )
        same[id(one)] = first.setdefault(key, one)
    return same


def _form(term: Term | None, same: dict[int, Quantity]) -> object:
    if term is None:
        return None
    if isinstance(term, Of):
        return id(same[id(term.quantity)])
    parts = getattr(term, "parts", ())
    head = getattr(term, "sign", getattr(term, "name", ""))
    return (head, getattr(term, "value", None), *(_form(part, same) for part in parts))
