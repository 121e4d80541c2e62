"""Remakes the pictures of the README from the demo: `python -m cli.readme_pictures`."""

from __future__ import annotations

import tempfile
from importlib.resources import as_file, files
from pathlib import Path

from cli.build import build_job
from cli.job import read_job
from cli.offcut_words import offcut_marks
from nesting.picture import dxf_picture
from parts.checks.window_picture import window_picture
from parts.rating.assess import assess
from parts.rating.stress_picture import stress_picture
from parts.section_picture import section_picture
from parts.solid_picture import step_picture


def main(home: Path = Path("out/readme")) -> None:
    """Build the demo aside and draw from its files."""
    home.mkdir(parents=True, exist_ok=True)
    with (
        as_file(files("cli") / "jobs" / "demo.toml") as path,
        tempfile.TemporaryDirectory() as aside,
    ):
        job = read_job(path)
        report = build_job(job, Path(aside), 0, lambda text: print(text), "quick")
        folder = Path(aside) / job.head.name
        step_picture(folder / "solids" / "wheel.step", home / "wheel.png")
        fullest = max(report.sheets, key=lambda sheet: len(sheet.placements))
        pictures = {
            "section": section_picture(job.wheel),
            "sheet": dxf_picture(folder / fullest.file, fullest.file, offcut_marks(fullest)),
            "window": window_picture(job.setting),
        }
        found = assess(job.setting)
        if found:
            pictures["stress"] = stress_picture(found.response, job.setting)
        for name, svg in pictures.items():
            (home / f"{name}.svg").write_text(svg + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
