"""Remakes the pictures of the README from the demo: `python -m tests.bench.readme_pictures`."""

from __future__ import annotations

import tempfile
from pathlib import Path

from platewheel.cli.job.job import read_job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.output.build import build_job
from platewheel.cli.papers.charts.flange_window import window_picture
from platewheel.cli.papers.charts.stress import stress_picture
from platewheel.cli.papers.drawings.gauges import gauge_picture
from platewheel.cli.papers.drawings.plate import dxf_picture
from platewheel.cli.papers.drawings.section import section_picture
from platewheel.cli.papers.drawings.shaded import step_picture
from platewheel.cli.papers.drawings.wheelset import wheelset_picture
from platewheel.cli.papers.html.offcut_words import offcut_marks
from platewheel.cli.papers.propose_page import flare_of, trade_of
from platewheel.cli.propose.run import propose
from platewheel.cli.propose.wanted import Wanted
from platewheel.parts.gauges.spec import GaugesSpec
from platewheel.parts.gauges.wanted import wanted_gauges
from platewheel.parts.rating.assess import assess
from tests.places import DEMO

FROM_ABOVE = (-0.75, -0.45, 0.5)  # of the wheelset, which lies on its track
WIDE_PX, EDGE_PX, COLOURS = 1200, 24, 200  # of a picture of solids
GAUGES = GaugesSpec(flange=True, wear=True, thickness_mm=6.0)
AROUND_DEMO = Wanted(least_diameter_mm=210, most_diameter_mm=390)  # as the command has it


def main(home: Path = Path("out/readme")) -> None:
    """Build the demo aside and draw from its files."""
    home.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as aside:
        job = read_job(DEMO)
        report = build_job(job, Path(aside), 0, lambda text: print(text), "quick")
        folder = Path(aside) / job.head.name
        _solids(folder / "solids", home)
        fullest = max(report.sheets, key=lambda sheet: len(sheet.placements))
        pictures = {
            "section": section_picture(job.wheel),
            "sheet": dxf_picture(folder / fullest.file, fullest.file, offcut_marks(fullest)),
            "window": window_picture(job.setting),
            "gauge": gauge_picture(job.setting, wanted_gauges(GAUGES, job.setting, 0.0)),
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
        _page(folder / "standards.pdf", home / "standards.png")
        _page(folder / "plates.pdf", home / "plates.png")
        _page(folder / "job-sheet.pdf", home / "job-sheet.png")
        _page(folder / "job-sheet.pdf", home / "steps.png", "11. ")
        for name, svg in pictures.items():
            (home / f"{name}.svg").write_text(svg + "\n", encoding="utf-8")


def _solids(solids: Path, home: Path) -> None:
    """The wheel and the wheelset, shaded, in the middle of their pictures."""
    step_picture(solids / "wheel.step", home / "wheel.png")
    step_picture(
        solids / "wheelset.step",
        home / "wheelset.png",
        eye=FROM_ABOVE,
        up=(0.0, 0.0, 1.0),
        size_px=(2600, 1800),
    )
    for name in ("wheel.png", "wheelset.png"):
        _trimmed(home / name)


def _trimmed(picture: Path) -> None:
    """The picture cut to what is not white, an even edge round it, of the README's width."""
    from PIL import Image, ImageChops, ImageOps

    drawn = Image.open(picture).convert("RGB")
    inside = ImageChops.difference(drawn, Image.new("RGB", drawn.size, "white")).getbbox()
    wide = WIDE_PX - 2 * EDGE_PX
    cut = drawn.crop(inside)
    cut = cut.resize((wide, round(cut.height * wide / cut.width)), Image.Resampling.LANCZOS)
    framed = ImageOps.expand(cut, EDGE_PX, "white")
    framed.quantize(COLOURS, dither=Image.Dither.NONE).save(picture, optimize=True)


def _page(file: Path, picture: Path, words: str = "") -> None:
    """The first page of a PDF that says these words, in greys."""
    import pypdfium2

    pages = pypdfium2.PdfDocument(file)
    page = next(one for one in pages if words in one.get_textpage().get_text_bounded())
    page.render(scale=1.35).to_pil().convert("L").quantize(16).save(picture, optimize=True)


if __name__ == "__main__":
    main()
