"""Other values of keys put into the table of a job file."""

from __future__ import annotations

import copy
import difflib
from collections.abc import Iterator, Mapping
from typing import Any

from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.of_kind import require_kind
from platewheel.parts.base.plain_number import plain_number


def with_values(table: Mapping[str, Any], *given: Mapping[str, Any]) -> dict[str, Any]:
    """A copy of the table with other values, of two for a name the last; the first is as it was.

    Names are `section.key`, the key alone where one section has it, or the name of rows
    (`stock`, `bar`, `way` ...) for all of them. None takes a key or all rows out, so that its
    default stands. Raises: SpecError with every name that no job file has.
    """
    for one in given:
        allowed = "a table of keys and values, or keys as arguments"
        require_kind("values", one, Mapping, allowed, '{"wheel.weld_throat_mm": 5.0}')
    values = {name: value for one in given for name, value in one.items()}
    other = copy.deepcopy(dict(table))
    faults: list[Fault] = []
    for name, value in values.items():
        places = [*_places(str(name))]
        if len(places) != 1:
            faults.append(_stray(str(name), value, places))
        elif not places[0][1] and not _are_rows(value):
            allowed = "a list of rows, each a table of its keys; None for no rows"
            faults.append(Fault(name, value, allowed, f"{name}=[{{...}}]"))
        else:
            _put(other, *places[0], _plain(value))
    if faults:
        raise SpecError(faults)
    return other


def _places(name: str) -> Iterator[tuple[str, str]]:
    """Sections that have it, each with the key; of rows the key is empty."""
    if name in REPEATED:
        yield name, ""
    section, dot, key = name.partition(".")
    for one, kind in SINGLE.items():
        if (not dot and name in kind.model_fields) or (one == section and key in kind.model_fields):
            yield one, key or name


def _are_rows(value: Any) -> bool:
    listed = isinstance(value, list | tuple)
    return value is None or (listed and all(isinstance(row, Mapping) for row in value))


def _plain(value: Any) -> Any:
    """Numbers as those of Python, also within rows; all else as it is."""
    if isinstance(value, Mapping):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    return plain_number(value)


def _put(table: dict[str, Any], section: str, key: str, value: Any) -> None:
    if not key and value is None:
        table.pop(section, None)
    elif not key:
        table[section] = value
    elif value is None:
        table.get(section, {}).pop(key, None)
        if not table.get(section, True):
            del table[section]  # as [disc] without its file
    else:
        table.setdefault(section, {})[key] = value


def _stray(name: str, value: Any, places: list[tuple[str, str]]) -> Fault:
    if places:
        homes = [f"{section}.{key}" for section, key in places]
        return Fault(name, value, f"one of {', '.join(homes)}", f'"{homes[0]}"')
    known = [f"{section}.{key}" for section, kind in SINGLE.items() for key in kind.model_fields]
    bare = {one.partition(".")[2]: one for one in known}
    near = difflib.get_close_matches(name, [*known, *bare, *REPEATED], n=1, cutoff=0.4)
    advice = f"did you mean {bare.get(near[0], near[0])}?" if near else "wheel.weld_throat_mm"
    return Fault(name, value, "a key of the job file, as section.key, or a name of rows", advice)
