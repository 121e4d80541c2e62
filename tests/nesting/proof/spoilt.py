"""Faults put into the sound file, one at a time, and what must be told of each."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from platewheel.nesting.proof.cuts import prove_cuts
from tests.nesting.proof.good_file import Edit, asked, good, write

PLAIN: dict[str, bool] = {}
IN_PATH = {"in_path": True}
TABS = {"in_path": True, "tabs": True}
TOTALS = "the report"  # most changes change pierces and length too
Change = Callable[[Edit], None]
Faults = dict[str, tuple[dict[str, bool], Change, list[str]]]  # kind of file, change, words


def edit(*steps: tuple[str, Any]) -> Callable[[Edit], None]:
    """Calls of the editor, by name."""

    def run(on: Edit) -> None:
        for name, values in steps:
            if isinstance(values, dict):
                getattr(on, name)(**values)
            else:
                getattr(on, name)(*values)

    return run


def put(name: str, **more: Any) -> Callable[[Edit], None]:
    return lambda on: on.put(name, **more)


def turned(name: str) -> Callable[[Edit], None]:
    """The closed path of a circle run the other way."""
    return lambda on: on.put(
        name, at=tuple((x, y, -b) for x, y, b in on.entities[on.place(name)].at)
    )


def begin_at(lead: str, x: float, y: float) -> Callable[[Edit], None]:
    return lambda on: on.put(lead, at=((x, y), on.entities[on.place(lead)].at[1]))


def assert_told(faults: Faults, name: str, version: str, file: Path) -> None:
    """All the words, and nothing but them, pierces and length of cut let pass."""
    kind, change, wanted = faults[name]
    on = Edit(good(**kind))
    change(on)
    told = prove_cuts(write(on.entities, file, version), asked(**kind))
    for part in wanted:
        assert [line for line in told if part in line], f"{part}: {told}"
    others = [line for line in told if not any(part in line for part in [*wanted, TOTALS])]
    assert not others, others
