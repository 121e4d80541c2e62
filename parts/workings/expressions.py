"""An expression of the code read as a term: its value, and how it came from quantities."""

from __future__ import annotations

import ast
import math
import operator
from collections.abc import Callable, Iterable, Iterator
from typing import Any, Final

from platewheel.parts.checks.result import CheckResult, judged
from platewheel.parts.workings.calls import called
from platewheel.parts.workings.conditions import because, reason
from platewheel.parts.workings.scope import Scope, bare, number, row_entry
from platewheel.parts.workings.terms import (
    Function,
    Number,
    Operation,
    Reading,
    is_number,
)

SPOKEN: Final = (judged, CheckResult)
ZERO: Final = Number(0.0)
SIGNS: Final[dict[type[ast.operator], tuple[str, Callable[[Any, Any], Any]]]] = {
    ast.Add: ("+", operator.add),
    ast.Sub: ("-", operator.sub),
    ast.Mult: ("×", operator.mul),
    ast.Div: ("/", operator.truediv),
    ast.Pow: ("^", operator.pow),
}


def evaluate(node: ast.expr, scope: Scope) -> Any:
    """The bare value, as Python has it."""
    return eval(compile(ast.Expression(node), "working", "eval"), scope.raw())


def read(node: ast.expr, scope: Scope) -> Reading:
    """The value and its term; a form that is no formula has its value alone."""
    reader = READERS.get(type(node))
    return Reading(evaluate(node, scope)) if reader is None else reader(node, scope)


def _constant(node: ast.Constant, scope: Scope) -> Reading:
    value: Any = node.value
    return number(value) if is_number(value) else Reading(value)


def _name(node: ast.Name, scope: Scope) -> Reading:
    if node.id in scope.names:
        return scope.names[node.id]
    if node.id not in scope.module:
        return Reading(evaluate(node, scope))
    value = scope.module[node.id]
    return scope.calls.constant(scope.module["__name__"], node.id, value)


def _attribute(node: ast.Attribute, scope: Scope) -> Reading:
    base = read(node.value, scope)
    if base.value is math:
        value = getattr(math, node.attr)
        return Reading(value, Number(value, "π")) if node.attr == "pi" else Reading(value)
    return scope.calls.attribute(base, node.attr)


def _binary(node: ast.BinOp, scope: Scope) -> Reading:
    left, right = read(node.left, scope), read(node.right, scope)
    if isinstance(node.op, ast.FloorDiv) and left.term is not None and right.term is not None:
        share = Operation("/", (left.term, right.term), left.value / right.value)
        whole = left.value // right.value
        return Reading(whole, Function("floor", (share,), whole))
    if type(node.op) not in SIGNS:
        return Reading(evaluate(node, scope))
    sign, does = SIGNS[type(node.op)]
    value = does(left.value, right.value)
    if isinstance(value, tuple) and left.parts and right.parts:
        return Reading(value, parts=left.parts + right.parts)
    if left.term is None or right.term is None or not is_number(value):
        return Reading(value)
    if sign in ("+", "-") and right.term == ZERO:
        return left
    if sign == "+" and left.term == ZERO:
        return right
    return Reading(value, Operation(sign, (left.term, right.term), value))


def _unary(node: ast.UnaryOp, scope: Scope) -> Reading:
    one = read(node.operand, scope)
    if isinstance(node.op, ast.USub) and one.term is not None:
        return Reading(-one.value, Operation("neg", (one.term,), -one.value))
    return Reading(evaluate(node, scope))


def _choice(node: ast.IfExp, scope: Scope) -> Reading:
    holds = bool(read(node.test, scope).value)
    found = read(node.body if holds else node.orelse, scope)
    return because(found, reason(node.test, holds, scope, read))


def _either(node: ast.BoolOp, scope: Scope) -> Reading:
    """`a or b`, `a and b`: that of its parts which Python takes."""
    stops = isinstance(node.op, ast.Or)
    found = Reading(None)
    for one in node.values:
        found = read(one, scope)
        if bool(found.value) == stops:
            break
    return found


def _compare(node: ast.Compare, scope: Scope) -> Reading:
    """Read for the names that it may give; its value is Python's."""
    for one in (node.left, *node.comparators):
        if isinstance(one, ast.NamedExpr):
            read(one, scope)
    return Reading(evaluate(node, scope))


def _walrus(node: ast.NamedExpr, scope: Scope) -> Reading:
    found = read(node.value, scope)
    bind(node.target, found, scope)
    return found


def _each(nodes: Iterable[ast.expr], scope: Scope) -> list[Reading]:
    """Those of a sequence or a call, a starred one as all that is in it."""
    found: list[Reading] = []
    for one in nodes:
        if isinstance(one, ast.Starred):
            inner = read(one.value, scope)
            found += inner.parts or [bare(value) for value in inner.value]
        else:
            found.append(read(one, scope))
    return found


def _parts(node: ast.Tuple | ast.List, scope: Scope) -> Reading:
    parts = _each(node.elts, scope)
    kind = tuple if isinstance(node, ast.Tuple) else list
    return Reading(kind(part.value for part in parts), parts=tuple(parts))


def _dict(node: ast.Dict, scope: Scope) -> Reading:
    keyed: dict[Any, Reading] = {}
    for key, value in zip(node.keys, node.values, strict=True):
        if key is None:
            return Reading(evaluate(node, scope))
        keyed[read(key, scope).value] = read(value, scope)
    return Reading({key: one.value for key, one in keyed.items()}, keyed=keyed)


def _subscript(node: ast.Subscript, scope: Scope) -> Reading:
    base = read(node.value, scope)
    if isinstance(node.slice, ast.Slice):
        value = evaluate(node, scope)
        return Reading(value)
    key = read(node.slice, scope)
    value = base.value[key.value]
    if base.parts is not None and isinstance(key.value, int):
        return base.parts[key.value]
    if isinstance(base.value, dict) and key.value in base.keyed:
        return base.keyed[key.value]
    return scope.calls.table(base, key, node.value, value)


def _loops(node: ast.GeneratorExp | ast.ListComp, scope: Scope) -> Reading:
    """Each round of it read; what Python would give is a list of their values."""
    parts = [read(node.elt, inner) for inner in _rounds(node.generators, scope)]
    return Reading([part.value for part in parts], parts=tuple(parts))


def _dict_loop(node: ast.DictComp, scope: Scope) -> Reading:
    keyed = {
        read(node.key, inner).value: read(node.value, inner)
        for inner in _rounds(node.generators, scope)
    }
    return Reading({key: one.value for key, one in keyed.items()}, keyed=keyed)


def _rounds(loops: list[ast.comprehension], scope: Scope) -> Iterator[Scope]:
    if not loops:
        yield scope
        return
    loop, rest = loops[0], loops[1:]
    over = read(loop.iter, scope)
    rounds = over.parts
    if rounds is None:
        rounds = tuple(bare(value, over.made_by) for value in over.value)
    for one in rounds:
        inner = Scope(dict(scope.names), scope.module, scope.calls)
        bind(loop.target, one, inner)
        if all(read(test, inner).value for test in loop.ifs):
            yield from _rounds(rest, inner)


def bind(target: ast.expr, one: Reading, scope: Scope) -> None:
    """A value to its name, or its parts to theirs."""
    if isinstance(target, ast.Name):
        scope.names[target.id] = row_entry(target.id, one)
        return
    if not isinstance(target, ast.Tuple | ast.List):
        raise TypeError(f"neither a name nor names in a row: {ast.dump(target)}")
    parts = one.parts or tuple(bare(value, one.made_by) for value in one.value)
    for name, part in zip(target.elts, parts, strict=True):
        bind(name, part, scope)


def _call(node: ast.Call, scope: Scope) -> Reading:
    if isinstance(node.func, ast.Attribute) and node.func.attr in ("values", "items"):
        base = read(node.func.value, scope)
        if isinstance(base.value, dict) and base.keyed:
            return _of_dict(base, node.func.attr)
    function = read(node.func, scope)
    if function.value in SPOKEN:  # its words are not read, they may try things
        words = [word for word in node.keywords if word.arg not in ("good", "bad")]
        node = ast.Call(node.func, node.args, words)
    args = _each(node.args, scope)
    named: dict[str, Reading] = {}
    for word in node.keywords:
        if word.arg is None:
            return Reading(evaluate(node, scope))
        named[word.arg] = read(word.value, scope)
    return called(function.value, args, named, scope)


def _of_dict(base: Reading, what: str) -> Reading:
    parts = tuple(base.keyed.values())
    if what == "items":
        parts = tuple(
            Reading((key, one.value), parts=(Reading(key), one)) for key, one in base.keyed.items()
        )
    return Reading([part.value for part in parts], parts=parts)


READERS: Final[dict[type[ast.expr], Callable[[Any, Scope], Reading]]] = {
    ast.Constant: _constant,
    ast.Name: _name,
    ast.Attribute: _attribute,
    ast.BinOp: _binary,
    ast.UnaryOp: _unary,
    ast.IfExp: _choice,
    ast.Compare: _compare,
    ast.NamedExpr: _walrus,
    ast.BoolOp: _either,
    ast.Tuple: _parts,
    ast.List: _parts,
    ast.Dict: _dict,
    ast.Subscript: _subscript,
    ast.GeneratorExp: _loops,
    ast.ListComp: _loops,
    ast.DictComp: _dict_loop,
    ast.Call: _call,
}
