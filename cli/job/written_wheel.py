"""A job file with another wheel, and the back-to-back that it needs; all else as it stands."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import toml_value


def with_wheel(text: str, wheel: Mapping[str, Any], back_to_back_mm: float | None = None) -> str:
    """The text of the job file with these values in [wheel], and where one is given the
    back-to-back in [axle], however those tables are written.

    A value that changes loses its comment, which spoke of the old one; keys that were left to
    their default are added where they differ from what is there, and so is [axle] where there is
    none. Raises: SpecError where the written text would not read back as the same job with that
    wheel.
    """
    import tomlkit

    before = tomllib.loads(text)
    document: Any = tomlkit.parse(text)
    changed = {"wheel": dict(wheel)}
    if back_to_back_mm is not None:
        document.setdefault("axle", tomlkit.table())
        changed["axle"] = before.get("axle", {}) | {"back_to_back_mm": back_to_back_mm}
    for section, values in changed.items():
        table, old = document[section], before.get(section, {})
        exact = {k: tomllib.loads(f"x = {toml_value(value)}")["x"] for k, value in values.items()}
        for key, value in exact.items():
            if key not in old:
                table[key] = _item(value)
            elif old[key] != values[key]:
                table[key] = _item(value)
                table[key].trivia.comment = table[key].trivia.comment_ws = ""
        changed[section] = exact
    written = tomlkit.dumps(document)
    after = tomllib.loads(written)
    odd = [section for section, values in changed.items() if after.get(section) != values]
    if odd or after != before | changed:
        raise SpecError([_not_followed(section) for section in odd or changed])
    return written


def _not_followed(section: str) -> Fault:
    return Fault(
        section,
        "a table that --write cannot follow",
        f"one table [{section}] with a key a line",
        "write it so",
    )


def _item(value: Any) -> Any:
    """The value as this project writes it: 280 and not 280.0."""
    import tomlkit

    return tomlkit.value(toml_value(value))
