"""The job file with every key that `platewheel new --all` writes, from the keys themselves."""

from __future__ import annotations

from collections.abc import Mapping

from platewheel.cli.schema.job_sections import OPTIONAL, REPEATED, SINGLE
from platewheel.parts.base.spec_model import Spec, allowed, example, toml_value
from platewheel.parts.setting.way import ASSUMED

HEAD = """\
# A wheel job. Every line with a value is one that you can change; lines that start
# with # are notes. Lengths in mm unless the name says otherwise.
# Check it with:  platewheel check THIS-FILE     Build it with:  platewheel build THIS-FILE
"""
QUIET = {  # sections that a starting job shows but does not use
    "disc": "hub discs of your own drawing; vent_count = 0 then stands in [wheel]",
}
ABSENT = {  # tables that a starting job shows but does not use
    "cut_speed": "speeds of your machine, one table a thickness; without any, [cutting] tells them",
    "extra": "parts of your own, cut along with the wheel's",
    "drawing_layer": "what the layers of their drawings are for, where it is not as there",
    "file_layer": "names and colours of the layers in the cutting files, as your machine has them",
    "offcut": "left-over pieces, used before whole sheets",
    "bar": 'flat bar, for tread_from = "bar"',
    "round": "round bar for the axles",
    "pipe": 'pipe, for tread_from = "pipe"',
    "way": f"the way in pieces, for the loads of a life; without any, {ASSUMED}",
}
SHOWN: dict[str, dict[str, object]] = {"way": {"share": 0.25, "radius_m": 12.0}}
START_STOCK = ({"thickness_mm": 6.0}, {"thickness_mm": 8.0})  # discs; tread and flange


def every_key_text() -> str:
    """Text of a job file that builds as it stands."""
    parts = [HEAD]
    for name, kind in SINGLE.items():
        if name in QUIET:
            parts.append(_quiet(f"[{name}]\n" + _keys(kind, {}), QUIET[name]))
            continue
        note = "  # may be left out: all defaults" if name in OPTIONAL else ""
        parts.append(f"[{name}]{note}\n" + _keys(kind, {}))
    for values in START_STOCK:
        parts.append("[[stock]]\n" + _keys(REPEATED["stock"], values))
    for name, why in ABSENT.items():
        parts.append(_quiet(f"[[{name}]]\n" + _keys(REPEATED[name], SHOWN.get(name, {})), why))
    return "\n".join(parts)


def _quiet(table: str, why: str) -> str:
    quiet = "\n".join(f"# {line}" for line in table.rstrip().splitlines())
    return f"# {why}: take the first # off these lines\n{quiet}\n"


def _keys(kind: type[Spec], values: Mapping[str, object]) -> str:
    lines = []
    for key, field in kind.model_fields.items():
        value = values.get(key, example(field))
        lines.append(f"# {field.description} ({allowed(key, field)})")
        hangs = field.default is None or field.default_factory_takes_validated_data
        quiet = "# " if hangs and key not in values else ""
        lines.append(f"{quiet}{key} = {toml_value(value)}")
    return "\n".join(lines) + "\n"
