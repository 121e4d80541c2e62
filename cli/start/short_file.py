"""The short job file: a line a key, with what it is and what is usual beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.cli.start.first_keys import FIRST_KEYS, note
from platewheel.parts.base.spec_model import toml_value

COLUMN = 31  # notes begin here where values leave room
HEAD = """\
# A wheel job: change what differs; what stands after a # is a note. All else has a default, told
# by `platewheel new --all`. Then `platewheel check FILE`, `platewheel build FILE`."""
TO_START = "to start from; `platewheel propose FILE --write BETTER` finds a cheaper wheel"
FOUND = "found by `platewheel propose`; `platewheel compare` sets another beside it"
ORDER = ("job", "track", "wagon", "use", "shop", "cutting", "finish", "stock", "wheel")
FIRST = {first.path: first for first in FIRST_KEYS}


def short_job_text(table: Mapping[str, Any], wheel: str = TO_START) -> str:
    """Text of a job file with the sections and rows of `table`, those of the first list first;
    `wheel` is noted above the wheel."""
    names = [name for name in ORDER if name in table]
    names += [name for name in table if name not in ORDER]
    parts = [HEAD]
    for name in names:
        if name in SINGLE:
            head = [f"# {wheel}"] if name == "wheel" else []
            lines = [*head, f"[{name}]", *_lines(name, table[name], noted=True)]
            parts.append("\n".join(lines) + "\n")
            continue
        rows = [[f"[[{name}]]", *_lines(name, row, not i)] for i, row in enumerate(table[name])]
        parts.append("\n".join(line for row in rows for line in row) + "\n")
    return "\n".join(parts)


def _lines(name: str, values: Mapping[str, Any], noted: bool) -> Iterator[str]:
    kind = (SINGLE | REPEATED)[name]
    keys = [first.key for first in FIRST_KEYS if first.section == name and first.key in values]
    for key in [*keys, *(key for key in values if key not in keys)]:
        line = f"{key} = {toml_value(values[key])}"
        told = note(key, kind.model_fields[key], FIRST.get(f"{name}.{key}"))
        yield f"{line:<{COLUMN}} # {told}" if noted else line
