"""The code followed as it judges: each function's own lines, with the numbers of this setting.

What a function returns becomes a quantity with the term of its `return`; what it assigns on the
way becomes quantities too, where it is more than another name. A function that loops or searches
for its result is told in words.
"""

from __future__ import annotations

import ast
import dataclasses
from collections.abc import Hashable, Sequence
from types import FunctionType
from typing import Any, Final

from pydantic import BaseModel

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.trying import still_pass, tried
from platewheel.parts.setting.setting import Setting
from platewheel.parts.workings.bodies import Returned, follow, is_formula
from platewheel.parts.workings.expressions import read
from platewheel.parts.workings.readings import (
    WentIn,
    as_judged,
    key_of,
    of,
    value_of,
    went_in,
    worked,
)
from platewheel.parts.workings.scope import Scope, number
from platewheel.parts.workings.source import constant, function_tree, says
from platewheel.parts.workings.terms import Number, Of, Quantity, Reading, is_number
from platewheel.parts.workings.units import unit_of_name

NOT_FOLLOWED: Final[tuple[Any, ...]] = (tried, still_pass)
DEEPEST: Final = 30  # calls within calls
# what is told in words, with what went in: integrals over pieces, searches, sums over a life
IN_WORDS: Final = frozenset(
    {
        "_free",
        "_mean_load_n",
        "_safety",
        "_screw_mm",
        "axle_beam",
        "axle_notches",
        "axle_seats",
        "closed_hollows",
        "coated_area_mm2",
        "deflection_and_slope",
        "flange_life_km",
        "flange_reach_mm",
        "flange_section",
        "frame_in_curve",
        "lateral_room_mm",
        "life_safety",
        "lowest_contact",
        "moments_of_one_n",
        "point_half_axes_mm",
        "spectrum",
        "steepest_clear_deg",
        "steepest_touch_deg",
        "turning_moments_n_mm",
        "usual_flangeway_mm",
        "usual_play_mm",
        "wheel_seat",
        "wheelset",
        "wheelset_on_rails",
    }
)


class Reader:
    """Reads checks of one setting; what two of them share is one quantity."""

    def __init__(self, setting: Setting) -> None:
        self._known: dict[Hashable, Reading] = {}
        self._kept: list[object] = []  # so that no id is given twice
        self._sections = {
            id(getattr(setting, one.name)): one.name for one in dataclasses.fields(setting)
        }
        self._depth = 0

    def result(self, check: FunctionType, *asked: object) -> Reading | None:
        """A check's result, keyed by `value`, `limit` and, of what is judged, `at_most`; None
        where it gave none."""
        given = [Reading(one) for one in asked[:1]]
        given += [Reading(one, made_by="of the wheelset as it is made") for one in asked[1:]]
        found = self.call(check, given, {})
        return found if isinstance(found.value, CheckResult) else None

    def call(
        self, function: FunctionType, args: Sequence[Reading], named: dict[str, Reading]
    ) -> Reading:
        """Follow a call of a function of ours; any other is only called."""
        tree = function_tree(function)
        if function is judged:
            return as_judged(args, named)
        if tree is None or function in NOT_FOLLOWED or self._depth > DEEPEST:
            return Reading(value_of(function, args, named))
        key = (function, *(key_of(one) for one in (*args, *named.values())), *named)
        if key not in self._known:
            self._kept += [one.value for one in (*args, *named.values())]
            self._known[key] = self._followed(function, tree, args, named)
        return self._known[key]

    def _followed(
        self,
        function: FunctionType,
        tree: ast.FunctionDef,
        args: Sequence[Reading],
        named: dict[str, Reading],
    ) -> Reading:
        scope = Scope({}, function.__globals__, self, says(function).first)
        self._bound(function, tree, args, named, scope)
        went = went_in(scope)
        if function.__name__ in IN_WORDS or not is_formula(tree):
            return self._procedure(function, went, value_of(function, args, named))
        self._depth += 1
        try:
            follow(tree.body, scope)
        except Returned as returned:
            found = returned.reading
        else:
            found = Reading(None)
        finally:
            self._depth -= 1
        return self._named(function, went, found)

    def _bound(
        self,
        function: FunctionType,
        tree: ast.FunctionDef,
        args: Sequence[Reading],
        named: dict[str, Reading],
        scope: Scope,
    ) -> None:
        """Arguments to the function's names; one that is more than a quantity becomes one."""
        names = [one.arg for one in (*tree.args.posonlyargs, *tree.args.args)]
        given = {**dict(zip(names, args, strict=False)), **named}
        if tree.args.vararg is not None:
            rest = tuple(args[len(names) :])
            given[tree.args.vararg.arg] = Reading(tuple(one.value for one in rest), parts=rest)
        defaults = dict(
            zip(names[len(names) - len(tree.args.defaults) :], tree.args.defaults, strict=True)
        )
        defaults |= {
            one.arg: default
            for one, default in zip(tree.args.kwonlyargs, tree.args.kw_defaults, strict=True)
            if default is not None
        }
        home = Scope({}, function.__globals__, self)
        for name in [*names, *(one.arg for one in tree.args.kwonlyargs)]:
            one = given[name] if name in given else read(defaults[name], home)
            scope.names[name] = self._argument(name, one, function)
        for name in given:
            scope.names.setdefault(name, given[name])

    def _argument(self, name: str, one: Reading, function: FunctionType) -> Reading:
        """What a name of a function stands for: a quantity of that name where it is worked out."""
        if one.term is None and not one.parts and is_number(one.value):
            return of(Quantity(name, one.value, unit_of_name(name) or "", "found"))
        if one.term is None or isinstance(one.term, Number | Of):
            return one
        return of(worked(name, one.term, one.value, function.__module__))

    def _named(self, function: FunctionType, went: WentIn, found: Reading) -> Reading:
        """What a function returned, with its name and what it says of itself."""
        name, told = function.__name__, says(function)
        if found.parts and isinstance(found.value, tuple) and not isinstance(found.value, str):
            several = sum(part.term is not None for part in found.parts) > 1
            parts = tuple(
                self._part(
                    f"{name}_{k + 1}" if several else name, part, told.first, function.__module__
                )
                for k, part in enumerate(found.parts)
            )
            return Reading(found.value, parts=parts, made_by=told.first)
        if found.term is None and is_number(found.value):
            return self._procedure(function, went, found.value)
        if found.term is None:
            return dataclasses.replace(found, made_by=found.made_by or told.first)
        if isinstance(found.term, Of):
            one = found.term.quantity
            if one.says or one.kind not in ("found", "constant"):
                return found
            return self._procedure(function, went, found.value)
        if isinstance(found.term, Number):
            return self._procedure(function, went, found.value)
        home = function.__module__
        return of(worked(name, found.term, found.value, home, told.first, told.source))

    def _part(self, name: str, one: Reading, told: str, home: str) -> Reading:
        """One of the numbers of a record or of a result that has several."""
        if one.term is None or isinstance(one.term, Of):
            return one
        if isinstance(one.term, Number):
            return of(Quantity(name, one.value, unit_of_name(name) or "", "found", told))
        return of(worked(name, one.term, one.value, home, told))

    def _procedure(self, function: FunctionType, went: WentIn, value: Any) -> Reading:
        """A result that no formula gave: what went into it, and what the function says."""
        told = says(function)
        inputs, words = went

        def found(name: str, one: Any) -> Reading:
            if not is_number(one):
                return Reading(one, made_by=told.first)
            unit = unit_of_name(function.__name__) or ""
            whole = Quantity(
                name,
                one,
                unit,
                "found",
                told.whole,
                told.source,
                inputs=inputs,
                beside=words,
                home=function.__module__,
            )
            return of(whole)

        if isinstance(value, tuple) and value and all(is_number(one) for one in value):
            parts = tuple(found(f"{function.__name__}_{k + 1}", v) for k, v in enumerate(value))
            return Reading(value, parts=parts)
        one = found(function.__name__, value)
        return dataclasses.replace(one, value=value)

    def made(
        self, kind: type, args: Sequence[Reading], named: dict[str, Reading]
    ) -> Reading | None:
        """A record of ours, field by field; None of any other type."""
        if not dataclasses.is_dataclass(kind) or not kind.__module__.startswith("platewheel."):
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
        if not is_number(value):
            return Reading(value)
        place = constant(module, name)
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
        if not is_number(value) or isinstance(base.value, type(ast)):
            return Reading(value, made_by=base.made_by)
        key = ("field", id(base.value), name)
        if key not in self._known:
            self._kept.append(base.value)
            self._known[key] = of(self._field(base, name, value))
        return self._known[key]

    def _field(self, base: Reading, name: str, value: float) -> Quantity:
        unit = unit_of_name(name) or ""
        if isinstance(base.value, BaseModel):
            section = self._sections.get(id(base.value), "")
            key = f"{section}.{name}" if section else name
            return Quantity(name, value, unit, "given", key)
        told = base.made_by or says(type(base.value)).first
        return Quantity(name, value, unit, "found", told)

    def table(self, base: Reading, key: Reading, node: ast.expr, value: Any) -> Reading:
        """An entry of a table of the code."""
        if isinstance(value, tuple) and any(is_number(one) for one in value):
            parts = tuple(self._entry(node, key, one, k) for k, one in enumerate(value))
            return Reading(value, parts=parts)
        return self._entry(node, key, value, None)

    def _entry(self, node: ast.expr, key: Reading, value: Any, place: int | None) -> Reading:
        if not is_number(value):
            return Reading(value)
        name = ast.unparse(node).split(".")[-1]
        words = (str(key.value), *([] if place is None else [f"column {place + 1}"]))
        entry = ("entry", name, key.value, place)
        if entry not in self._known:
            unit, told = unit_of_name(name) or "", f"table {name}"
            self._known[entry] = of(Quantity(name, value, unit, "found", told, beside=words))
        return self._known[entry]
