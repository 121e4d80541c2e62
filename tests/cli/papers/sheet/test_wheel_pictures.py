"""The wheel's section of the job sheet: no network, small, whole without a script."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.papers.html.render import TEMPLATES
from platewheel.cli.papers.sheet.drawings import wheel_drawings
from platewheel.cli.papers.sheet.wheel_pictures import wheel_pictures
from platewheel.parts.wheelset.bodies.hub import finished_solids
from tests.cli.jobs import job_text, write_job
from tests.places import DEMO

LOADS = re.compile(r"\b(?:fetch|XMLHttpRequest|WebSocket|importScripts|import)\s*\(|\bsrc\s*=")


class Tags(HTMLParser):
    """Names of tags and their attributes."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


@pytest.fixture(scope="module")
def demo() -> Job:
    return read_job(DEMO)


@pytest.fixture(scope="module")
def page(demo: Job) -> str:
    return wheel_pictures(demo, wheel_drawings(demo))


def test_the_page_loads_nothing(page: str) -> None:
    tags = Tags(page).found
    assert {"svg", "canvas", "script"} <= {tag for tag, _ in tags}
    for tag, attributes in tags:
        assert tag not in {"link", "img", "iframe", "object", "embed", "use", "image"}
        assert not {"src", "href", "srcset", "data", "action"} & set(attributes)
    elsewhere = str(page).replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"https?:|//\w|@import|url\((?!#)", elsewhere.replace("// ", ""))
    assert not LOADS.search(page)


def test_small_enough_for_a_page_of_5_mb(page: str) -> None:
    assert len(page.encode()) < 1_000_000  # a fifth of the page for the wheel's pictures


def test_the_view_has_every_solid_whole(demo: Job, page: str) -> None:
    found = re.search(r'id="turning-mesh">(.*?)</script>', page, re.DOTALL)
    assert found
    data = json.loads(found[1])
    solids = dict(finished_solids(demo.setting, job_wheelset(demo).wheelset))
    assert [part["name"] for part in data["parts"]] == list(solids)
    for part in data["parts"]:
        points = len(part["points"]) // 3
        assert len(part["points"]) == 3 * points
        assert sorted(set(part["triangles"])) == list(range(points))
        box = solids[part["name"]].BoundingBox()
        heights = part["points"][2::3]
        assert (min(heights), max(heights)) == pytest.approx((box.zmin, box.zmax), abs=0.02)
        assert {place for edge in part["edges"] for place in edge} <= set(range(points))
    titles = {part["title"] for part in data["parts"]}
    assert {"tread ring", "field hub disc", "gauge hub disc", "flange 3", "hub tube"} <= titles


def test_the_view_is_left_out_of_print_and_where_no_script_runs(page: str) -> None:
    figure = next(attributes for _, attributes in Tags(page).found if "turning" in str(attributes))
    assert "hidden" in figure
    assert re.search(
        r"@media print\{[^}]*\.turning\{display:none\}",
        (TEMPLATES / "wheel.css").read_text("utf-8"),
    )


def test_sizes_in_the_units_of_the_paper(tmp_path: Path) -> None:
    text = job_text({"paper.size": '"A4"', "paper.units": '"inch"'})
    job = read_job(write_job(tmp_path, text))
    page = wheel_pictures(job, wheel_drawings(job))
    assert "inches to 1/64" in page
    assert ">Ø7 3/32 in<" in page  # 180 mm = 7.087 in; 7 3/32 = 7.094, 7 5/64 = 7.078
