"""A job file with another wheel: the lines of its wheel table changed, all else as it stands."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from typing import Any

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import toml_value

_TABLE = re.compile(r"^\s*\[+\s*([A-Za-z_]+)\s*\]+\s*(#.*)?$")
_KEY = re.compile(r"^(\s*)([A-Za-z0-9_]+)(\s*=\s*)(.*)$")


def with_wheel(text: str, wheel: Mapping[str, Any]) -> str:
    """The text of the job file with these values in [wheel].

    A line whose value changes loses its comment, which spoke of the old one; keys that were left
    to their default are added where they differ from what is there. Raises: SpecError where the
    table is written in a way that this does not follow (dotted or inline).
    """
    before = tomllib.loads(text)
    old = before["wheel"]
    lines, inside, last, seen = [], False, 0, set()
    for line in text.splitlines():
        table = _TABLE.match(line)
        if table:
            inside = table[1] == "wheel"
        key = _KEY.match(line) if inside and not table else None
        if key and key[2] in wheel:
            seen.add(key[2])
            if old[key[2]] != wheel[key[2]]:
                line = f"{key[1]}{key[2]}{key[3]}{toml_value(wheel[key[2]])}"
        lines.append(line)
        if inside and line.strip():
            last = len(lines)
    more = [f"{key} = {toml_value(value)}" for key, value in wheel.items() if key not in seen]
    lines[last:last] = more
    written = "\n".join(lines) + "\n"
    exact = {key: tomllib.loads(f"x = {toml_value(value)}")["x"] for key, value in wheel.items()}
    try:
        followed = tomllib.loads(written) == before | {"wheel": exact}
    except tomllib.TOMLDecodeError:
        followed = False  # a key came twice
    if not followed:
        found = "a dotted or inline table, or a key in quotes"
        allowed = "one table [wheel] with a bare key a line, which --write can follow"
        raise SpecError([Fault("wheel", found, allowed, "write it so")])
    return written
