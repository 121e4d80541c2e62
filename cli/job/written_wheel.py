"""A job file with another wheel: the values of its wheel table changed, all else as it stands."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import toml_value


def with_wheel(text: str, wheel: Mapping[str, Any]) -> str:
    """The text of the job file with these values in [wheel], however that table is written.

    A value that changes loses its comment, which spoke of the old one; keys that were left to
    their default are added where they differ from what is there. Raises: SpecError where the
    written text would not read back as the same job with that wheel.
    """
    import tomlkit

    before = tomllib.loads(text)
    document: Any = tomlkit.parse(text)
    table, old = document["wheel"], before["wheel"]
    exact = {key: tomllib.loads(f"x = {toml_value(value)}")["x"] for key, value in wheel.items()}
    for key, value in exact.items():
        if key not in old:
            table[key] = _item(value)
        elif old[key] != wheel[key]:
            table[key] = _item(value)
            table[key].trivia.comment = table[key].trivia.comment_ws = ""
    written = tomlkit.dumps(document)
    if tomllib.loads(written) != before | {"wheel": exact}:
        raise SpecError(
            [
                Fault(
                    "wheel",
                    "a table that --write cannot follow",
                    "one table [wheel] with a key a line",
                    "write it so",
                )
            ]
        )
    return written


def _item(value: Any) -> Any:
    """The value as this project writes it: 280 and not 280.0."""
    import tomlkit

    return tomlkit.value(toml_value(value))
