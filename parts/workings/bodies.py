"""The lines of a function followed one by one, as Python would run them."""

from __future__ import annotations

import ast
from typing import Any

from platewheel.parts.workings.conditions import because, reason, returns_number
from platewheel.parts.workings.expressions import SIGNS, bind, read
from platewheel.parts.workings.readings import of, worked
from platewheel.parts.workings.scope import ENTRY, Scope, bare
from platewheel.parts.workings.terms import Number, Of, Operation, Quantity, Reading, is_number
from platewheel.parts.workings.units import UNKNOWN, unit_of_name

MOST_ROUNDS = 12  # of a loop that is followed; a longer one is run


class Returned(Exception):  # noqa: N818 - a signal inside this room, not an error
    """A `return` was reached."""

    def __init__(self, reading: Reading) -> None:
        super().__init__()
        self.reading = reading


class _Next(Exception):  # noqa: N818
    """`continue`."""


class _Ends(Exception):  # noqa: N818
    """`break`."""


def is_formula(tree: ast.FunctionDef) -> bool:
    """Whether a function gives one result, and not out of a loop of unknown length."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Yield | ast.YieldFrom):
            return False
        if isinstance(node, ast.While | ast.With) and _leaves(node):
            return False
    return True


def _leaves(node: ast.AST) -> bool:
    return any(isinstance(one, ast.Return) for one in ast.walk(node))


def follow(body: list[ast.stmt], scope: Scope) -> None:
    """Line by line. Raises: Returned."""
    before = scope.past
    for line in body:
        _line(line, scope)
        if isinstance(line, ast.If) and returns_number(line.body):  # and it was not taken
            scope.past += reason(line.test, False, scope, read)
    scope.past = before


def _line(line: ast.stmt, scope: Scope) -> None:
    if isinstance(line, ast.Return):
        found = Reading(None) if line.value is None else read(line.value, scope)
        raise Returned(because(found, scope.when + scope.past))
    if isinstance(line, ast.Assign) and all(_names(one) for one in line.targets):
        found = read(line.value, scope)
        for target in line.targets:
            _assign(target, found, scope)
    elif isinstance(line, ast.Assign) and _into_dict(line, scope):
        return
    elif isinstance(line, ast.AnnAssign) and isinstance(line.target, ast.Name):
        if line.value is not None:
            _assign(line.target, read(line.value, scope), scope)
    elif isinstance(line, ast.AugAssign) and isinstance(line.target, ast.Name):
        _assign(line.target, _changed(line, line.target.id, scope), scope)
    elif isinstance(line, ast.If):
        holds, before = bool(read(line.test, scope).value), scope.when
        scope.when += reason(line.test, holds, scope, read)
        follow(line.body if holds else line.orelse, scope)
        scope.when = before
    elif isinstance(line, ast.Try):
        _tried(line, scope)
    elif isinstance(line, ast.For):
        _loop(line, scope)
    elif isinstance(line, ast.Continue):
        raise _Next
    elif isinstance(line, ast.Break):
        raise _Ends
    elif isinstance(line, ast.Expr) and _appended(line.value, scope):
        return
    elif not (isinstance(line, ast.Expr) and isinstance(line.value, ast.Constant)):
        _run(line, scope)


def _loop(line: ast.For, scope: Scope) -> None:
    """A loop of few rounds round by round."""
    over = read(line.iter, scope)
    value = list(over.value)
    parts = over.parts
    if parts is None:
        parts = tuple(bare(one, over.made_by) for one in value)
    if len(parts) > MOST_ROUNDS and not _leaves(line):
        _run(line, scope)
        return
    for one in parts:
        bind(line.target, one, scope)
        try:
            follow(line.body, scope)
        except _Next:
            continue
        except _Ends:
            return
    follow(line.orelse, scope)


def _appended(call: ast.expr, scope: Scope) -> bool:
    """`x.append(y)`, of a list whose parts are known."""
    if not (isinstance(call, ast.Call) and isinstance(call.func, ast.Attribute)):
        return False
    owner = call.func.value
    if call.func.attr != "append" or not isinstance(owner, ast.Name):
        return False
    before, more = scope.names[owner.id], read(call.args[0], scope)
    parts = None if before.parts is None else (*before.parts, more)
    scope.names[owner.id] = Reading([*before.value, more.value], parts=parts)
    return True


def _into_dict(line: ast.Assign, scope: Scope) -> bool:
    """`x[key] = y`, of a dict whose entries are known."""
    target = line.targets[0]
    if not (isinstance(target, ast.Subscript) and isinstance(target.value, ast.Name)):
        return False
    before, key = scope.names[target.value.id], read(target.slice, scope).value
    more = read(line.value, scope)
    if not isinstance(before.value, dict) or (before.value and not before.keyed):
        return False
    keyed = {**before.keyed, key: more}
    scope.names[target.value.id] = Reading({**before.value, key: more.value}, keyed=keyed)
    return True


def _names(target: ast.expr) -> bool:
    if isinstance(target, ast.Tuple):
        return all(_names(one) for one in target.elts)
    return isinstance(target, ast.Name)


def _assign(target: ast.expr, found: Reading, scope: Scope) -> None:
    if isinstance(target, ast.Name):
        scope.names[target.id] = local(target.id, found, scope)
        return
    bind(target, found, scope)
    for node in ast.walk(target):
        if isinstance(node, ast.Name):
            scope.names[node.id] = local(node.id, scope.names[node.id], scope)


def local(name: str, one: Reading, scope: Scope) -> Reading:
    """What a name stands for: a quantity of that name where it is worked out there."""
    if one.term is None or isinstance(one.term, Of):
        return one
    if isinstance(one.term, Number) and not one.term.name:
        return of(Quantity(name, one.value, unit_of_name(name) or "", "constant"))
    when = one.when or scope.when
    return of(worked(name, one.term, one.value, scope.module["__name__"], when=when))


def _changed(line: ast.AugAssign, name: str, scope: Scope) -> Reading:
    """`x += y` as x + y."""
    before, more = scope.names[name], read(line.value, scope)
    if isinstance(before.term, Of) and before.term.quantity.name == name:
        quantity = before.term.quantity  # one term, not two quantities of a name
        if quantity.term is not None and not quantity.says:
            before = Reading(before.value, quantity.term)
        elif quantity.kind == "constant" and quantity.value == 0 and more.term is not None:
            return more
    if type(line.op) in SIGNS and before.term is not None and more.term is not None:
        sign, does = SIGNS[type(line.op)]
        value = does(before.value, more.value)
        return Reading(value, Operation(sign, (before.term, more.term), value))
    if isinstance(line.op, ast.BitOr) and before.keyed and more.keyed:
        return Reading(before.value | more.value, keyed={**before.keyed, **more.keyed})
    if isinstance(before.value, list) and before.parts is not None and more.parts is not None:
        return Reading([*before.value, *more.value], parts=before.parts + more.parts)
    space = scope.raw()
    exec(compile(ast.Module([line], []), "working", "exec"), space)
    return Reading(space[name])


def _tried(line: ast.Try, scope: Scope) -> None:
    before = dict(scope.names)
    try:
        follow(line.body, scope)
    except Returned:
        raise
    except Exception as error:
        for handler in line.handlers:
            kind = scope.module.get(ast.unparse(handler.type)) if handler.type else Exception
            kind = kind or getattr(__import__("builtins"), ast.unparse(handler.type or line), None)
            if isinstance(kind, type) and isinstance(error, kind):
                scope.names = before
                if handler.name:
                    scope.names[handler.name] = Reading(error)
                follow(handler.body, scope)
                return
        raise
    else:
        follow(line.orelse, scope)


def _run(line: ast.stmt, scope: Scope) -> None:
    """A line that is no formula, run as it is; what it changed is a number that it found."""
    before = scope.raw()
    space = dict(before)
    exec(compile(ast.Module([line], []), "working", "exec"), space)
    for name, value in space.items():
        if name == "__builtins__":
            continue
        if name in before and before[name] is value:
            if isinstance(value, list | dict) and name in scope.names:  # it may have grown
                scope.names[name] = Reading(value)
            continue
        scope.names[name] = _found(name, value)


def _found(name: str, value: Any) -> Reading:
    if not is_number(value):
        return Reading(value)
    return Reading(value, Of(Quantity(name, value, unit_of_name(name) or UNKNOWN, "found", ENTRY)))
