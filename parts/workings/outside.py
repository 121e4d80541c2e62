"""What lies outside a function's own lines: keys of the job, constants, tables and records."""

from __future__ import annotations

import ast
import dataclasses
from abc import ABC, abstractmethod
from collections.abc import Hashable, Sequence
from types import FunctionType
from typing import Any

from pydantic import BaseModel

from platewheel.parts.checks.result import CheckResult
from platewheel.parts.setting.setting import Setting
from platewheel.parts.workings.readings import of, worked
from platewheel.parts.workings.scope import number
from platewheel.parts.workings.source import constant, says
from platewheel.parts.workings.terms import Number, Of, Quantity, Reading, is_number
from platewheel.parts.workings.units import UNKNOWN, unit_of_name


class Outside(ABC):
    """Each of them is one quantity, however often it is met."""

    def __init__(self, setting: Setting) -> None:
        self._known: dict[Hashable, Reading] = {}
        self._kept: list[object] = []  # so that no id is given twice
        self._sections = {
            id(getattr(setting, one.name)): one.name for one in dataclasses.fields(setting)
        }

    @abstractmethod
    def call(
        self, function: FunctionType, args: Sequence[Reading], named: dict[str, Reading]
    ) -> Reading:
        """Follow a call: the reader's own work."""

    def _part(self, name: str, one: Reading, told: str, home: str) -> Reading:
        """One of the numbers of a record or of a result that has several."""
        if one.term is None or isinstance(one.term, Of):
            return one
        if isinstance(one.term, Number):
            return of(Quantity(name, one.value, unit_of_name(name) or UNKNOWN, "found", told))
        return of(worked(name, one.term, one.value, home, told))

    def made(
        self, kind: type, args: Sequence[Reading], named: dict[str, Reading]
    ) -> Reading | None:
        """A record of ours, field by field; None of any other type."""
        if not kind.__module__.startswith("platewheel."):
            return None
        if issubclass(kind, BaseModel) and not args:
            record = kind(**{key: one.value for key, one in named.items()})
            self._kept.append(record)
            return Reading(record, keyed=named, made_by=says(kind).first)
        if not dataclasses.is_dataclass(kind):
            return None
        told = "as the check has it" if kind is CheckResult else says(kind).first
        names = [one.name for one in dataclasses.fields(kind) if one.init]
        keyed = {**dict(zip(names, args, strict=False)), **named}
        value = kind(*(a.value for a in args), **{k: v.value for k, v in named.items()})
        self._kept.append(value)
        keyed = {key: self._part(key, one, told, kind.__module__) for key, one in keyed.items()}
        return Reading(value, keyed=keyed, made_by=told)

    def constant(self, module: str, name: str, value: Any) -> Reading:
        """A name of a module's top: a number with what is said beside it."""
        place = constant(module, name)
        if not is_number(value):
            table = isinstance(value, tuple | dict | list) and place is not None
            return Reading(value, made_by=place.says if table and place else "")
        if place is None:
            return number(value)
        key = ("constant", place.home, place.name)
        if key not in self._known:
            unit = unit_of_name(name) or ""
            self._known[key] = of(Quantity(place.name, value, unit, "constant", place.says))
        return self._known[key]

    def attribute(self, base: Reading, name: str) -> Reading:
        """A key of the job, a field of a record, or a property followed."""
        if name in base.keyed and not isinstance(base.value, dict):
            return base.keyed[name]
        own = getattr(type(base.value), name, None)
        if isinstance(own, property) and isinstance(own.fget, FunctionType):
            return self.call(own.fget, [base], {})
        value = getattr(base.value, name)
        if isinstance(value, tuple) and isinstance(base.value, BaseModel):
            parts = tuple(self._at(base, f"{name}_{k + 1}", one) for k, one in enumerate(value))
            return Reading(value, parts=parts)
        return self._at(base, name, value)

    def _at(self, base: Reading, name: str, value: Any) -> Reading:
        """A field of a record, or one of several in it."""
        if not is_number(value):
            return Reading(value, made_by=base.made_by)
        key = ("field", id(base.value), name)
        if key not in self._known:
            self._kept.append(base.value)
            self._known[key] = of(self._field(base, name, value))
        return self._known[key]

    def _field(self, base: Reading, name: str, value: float) -> Quantity:
        unit = unit_of_name(name) or UNKNOWN
        if isinstance(base.value, BaseModel):
            unit = unit_of_name(name) or ""
            kind = type(base.value).__name__.removesuffix("Spec").lower()  # of one of several: way
            section = self._sections.get(id(base.value), kind)
            return Quantity(name, value, unit, "given", f"{section}.{name}")
        told = base.made_by or says(type(base.value)).first
        return Quantity(name, value, unit, "found", told)

    def table(self, base: Reading, key: Reading, node: ast.expr, value: Any) -> Reading:
        """An entry of a table of the code."""
        if isinstance(value, tuple) and any(is_number(one) for one in value):
            parts = tuple(self._entry(base, node, key, one, k) for k, one in enumerate(value))
            return Reading(value, parts=parts)
        return self._entry(base, node, key, value, None)

    def _entry(
        self, base: Reading, node: ast.expr, key: Reading, value: Any, place: int | None
    ) -> Reading:
        if not is_number(value):
            return Reading(value)
        name = ast.unparse(node).split(".")[-1]
        words = (str(key.value), *([] if place is None else [f"column {place + 1}"]))
        entry = ("entry", name, key.value, place, value)
        if entry not in self._known:
            unit = unit_of_name(name) or UNKNOWN
            told = f"table {name}" + (f": {base.made_by}" if base.made_by else "")
            self._known[entry] = of(Quantity(name, value, unit, "found", told, beside=words))
        return self._known[entry]
