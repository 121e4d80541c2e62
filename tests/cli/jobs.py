"""A small job that the tests of `cli` share, changed key by key; values are raw TOML text."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from typer.testing import CliRunner

from platewheel.cli.commands.main import app

NAME = "pond-line"
LINE = re.compile(
    r"^(?:line (?P<line>\d+): )?(?P<key>.+?): found (?P<found>.+); "
    r"allowed: (?P<allowed>.+); try: (?P<advice>.+)$"
)
BASE: dict[str, dict[str, str]] = {
    "job": {"name": f'"{NAME}"', "wheels": "2"},
    "track": {"gauge_mm": "381", "rail_head_width_mm": "20", "min_curve_radius_m": "10"},
    "wagon": {"tare_kg": "80", "payload_kg": "60", "wheelbase_mm": "500"},
    "wheel": {
        "tread_diameter_mm": "180",
        "tread_width_mm": "50",
        "tread_thickness_mm": "6",
        "flange_depth_mm": "12",
        "flange_angle_deg": "65",
        "flange_thickness_mm": "5",
        "flange_segments": "3",
        "disc_thickness_mm": "5",
        "hub_bore_mm": "30",
        "hub_tube_outside_mm": "42",
        "hub_tube_length_mm": "60",
        "vent_circle_mm": "136",
    },
}
ROWS = """
[[stock]]
thickness_mm = 5
width_mm = 400
length_mm = 500
[[stock]]
thickness_mm = 6
width_mm = 150
length_mm = 600
"""
TOO_SMALL = ROWS.replace("400", "120").replace("500", "120")  # for discs of 167 mm


def job_text(
    changes: Mapping[str, str] | None = None,
    *,
    without: tuple[str, ...] = (),
    rows: str = ROWS,
    head: str = "",
) -> str:
    """The small job with "section.key" set to raw TOML, keys or whole sections left out."""
    sections = {name: dict(keys) for name, keys in BASE.items()}
    for path, value in (changes or {}).items():
        section, key = path.split(".")
        sections.setdefault(section, {})[key] = value
    lines = [head]
    for section, keys in sections.items():
        if section in without:
            continue
        lines.append(f"[{section}]")
        lines += [f"{k} = {v}" for k, v in keys.items() if f"{section}.{k}" not in without]
    return "\n".join([*lines, rows])


def write_job(folder: Path, text: str | bytes, name: str = "job.toml") -> Path:
    """A job file with this text."""
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def run(*arguments: str | Path) -> Any:
    """`platewheel` with these arguments, in this process; exit_code, stdout, stderr."""
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def files_of(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, hidden ones too, by its path; and folders, as empty."""
    return {
        str(path.relative_to(folder)): path.read_bytes() if path.is_file() else b""
        for path in sorted(folder.rglob("*"))
    }


def refused(text: str | bytes | None, file: str = "job.toml") -> dict[str, re.Match[str]]:
    """The faults by key, of a build refused in the current folder, which stays as it was."""
    here = Path()
    if text is not None:
        write_job(here, text, file)
    before = files_of(here)
    result = run("build", file)  # out/ would appear here
    assert result.exit_code == 2, result.stderr
    assert result.stdout == ""
    assert files_of(here) == before
    lines = [LINE.match(line) for line in result.stderr.splitlines()]
    assert lines
    assert all(lines), result.stderr
    return {line["key"]: line for line in lines if line}
