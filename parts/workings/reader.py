"""The code followed as it judges: each function's own lines, with the numbers of this setting.

What a function returns becomes a quantity with the term of its `return`; what it assigns on the
way becomes quantities too, where it is more than another name. A function that loops or searches
for its result is told in words.
"""

from __future__ import annotations

import ast
import dataclasses
from collections.abc import Sequence
from types import FunctionType
from typing import Any, Final

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.checks.trying import still_pass, tried
from platewheel.parts.workings.bodies import Returned, follow, is_formula
from platewheel.parts.workings.expressions import read
from platewheel.parts.workings.outside import Outside
from platewheel.parts.workings.readings import (
    WentIn,
    as_judged,
    key_of,
    of,
    value_of,
    went_in,
    worked,
)
from platewheel.parts.workings.scope import Scope
from platewheel.parts.workings.source import function_tree, says
from platewheel.parts.workings.terms import Number, Of, Quantity, Reading, is_number
from platewheel.parts.workings.units import UNKNOWN, unit_at, unit_of_name

NOT_FOLLOWED: Final[tuple[Any, ...]] = (tried, still_pass)
DEEPEST: Final = 30  # calls within calls
# what is told in words, with what went in: integrals over pieces, searches, sums over a life
IN_WORDS: Final = frozenset(
    {
        "_free",
        "_least_pushed_mm",
        "_mean_load_n",
        "_uses",
        "_screw_mm",
        "axle_beam",
        "axle_notches",
        "axle_seats",
        "closed_hollows",
        "coated_area_mm2",
        "deflection_and_slope",
        "lateral_room_mm",
        "life_safety",
        "moments_of_one_n",
        "point_half_axes_mm",
        "spectrum",
        "steepest_clear_deg",
        "steepest_touch_deg",
        "turning_moments_n_mm",
        "wheel_seat",
        "wheelset",
        "wheelset_on_rails",
    }
)


class Reader(Outside):
    """Reads checks of one setting; what two of them share is one quantity."""

    _depth = 0

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
        scope = Scope({}, function.__globals__, self)
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
            return of(Quantity(name, one.value, unit_of_name(name) or UNKNOWN, "found"))
        if one.term is None or isinstance(one.term, Number | Of):
            return one
        return of(worked(name, one.term, one.value, function.__module__))

    def _named(self, function: FunctionType, went: WentIn, found: Reading) -> Reading:
        """What a function returned, with its name and what it says of itself."""
        name, told = function.__name__, says(function)
        name = "found" if name == "<lambda>" else name
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
            if one.kind == "worked" and not one.says and told.first and one.term is not None:
                home = function.__module__  # its last line by the name of the function
                when = (*one.when, *found.when)
                return of(worked(name, one.term, one.value, home, told.first, told.source, when))
            if one.home or one.kind in ("given", "worked") or one.kind == "constant":
                return found
            return self._procedure(function, went, found.value)
        if isinstance(found.term, Number):
            return self._procedure(function, went, found.value)
        home = function.__module__
        return of(worked(name, found.term, found.value, home, told.first, told.source, found.when))

    def _procedure(self, function: FunctionType, went: WentIn, value: Any) -> Reading:
        """A result that no formula gave: what went into it, and what the function says."""
        told = says(function)
        inputs, words = went

        def found(name: str, one: Any) -> Reading:
            if not is_number(one):
                return Reading(one, made_by=f"found by procedure: {told.first}")
            unit = unit_at(function.__module__, name)
            if unit is None:
                unit = unit_of_name(function.__name__) or UNKNOWN
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
