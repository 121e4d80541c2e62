"""Remakes the pictures of the README from the demo: `python -m cli.readme_pictures`."""

from __future__ import annotations

import tempfile
from importlib.resources import as_file, files
from pathlib import Path

from cli.build import build_job
from cli.job import read_job
from cli.job_wheelset import job_wheelset
from cli.offcut_words import offcut_marks
from cli.propose import Wanted, propose
from cli.propose_page import flare_of, trade_of
from nesting.picture import dxf_picture
from parts.checks.window_picture import window_picture
from parts.rating.assess import assess
from parts.rating.stress_picture import stress_picture
from parts.section_picture import section_picture
from parts.solid_picture import step_picture
from parts.wheelset_picture import wheelset_picture

FROM_ABOVE = (0.55, -0.75, -0.45)
AROUND_DEMO = Wanted(least_diameter_mm=210, most_diameter_mm=390)  # as the command has it


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
        step_picture(
            folder / "solids" / "wheelset.step",
            home / "wheelset.png",
            eye=FROM_ABOVE,
            size_px=(620, 420),
        )
        fullest = max(report.sheets, key=lambda sheet: len(sheet.placements))
        pictures = {
            "section": section_picture(job.wheel),
            "sheet": dxf_picture(folder / fullest.file, fullest.file, offcut_marks(fullest)),
            "window": window_picture(job.setting),
        }
        made = job_wheelset(job).wheelset
        if made:
            pictures["wheelset"] = wheelset_picture(job.setting, made)
        proposed = propose(job, AROUND_DEMO, lambda text: print(text))
        if proposed.proposals:
            pictures |= {"trade": trade_of(proposed), "flare": flare_of(proposed)}
        found = assess(job.setting)
        if found:
            pictures["stress"] = stress_picture(found.response, job.setting)
        for name, svg in pictures.items():
            (home / f"{name}.svg").write_text(svg + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
