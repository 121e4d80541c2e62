"""Refit: from measured rings to blanks, pairs, cutting files and the build record."""

from __future__ import annotations

import csv
import json
import math
import random
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from pypdf import PdfReader

from platewheel.cli.schema.refit import RefitReport
from tests.cli.jobs import NAME, TOO_SMALL, files_of, job_text, run, write_job
from tests.places import DEMO

HEAD = "ring,outside_circumference_mm"
DRAWN = math.pi * 180  # of the small job
FILES = {"report.json", "record.csv", "refit-sheet.html", "blanks", "templates"}


def rings_csv(folder: Path, *rows: str, head: str = HEAD) -> Path:
    path = folder / "rings.csv"
    path.write_text("\n".join([head, *rows, ""]), encoding="utf-8")
    return path


def scattered(folder: Path, count: int, diameter_mm: float, seed: int) -> Path:
    """Rings rolled with a standard deviation of 0.6 mm in diameter, taped to half a mm."""
    rng = random.Random(seed)
    tapes = [round(2 * math.pi * rng.gauss(diameter_mm, 0.6)) / 2 for _ in range(count)]
    return rings_csv(folder, *(f"{i + 1},{tape}" for i, tape in enumerate(tapes)))


def refitted(job: Path, rings: Path, *more: str) -> dict[str, Any]:
    out = rings.parent / "out"
    result = run("refit", job, "--rings", rings, "--out", out, "--json", *more)
    assert result.exit_code == 0, result.stderr
    loaded = json.loads(result.stdout)
    assert isinstance(loaded, dict)
    RefitReport.model_validate(loaded)
    return loaded


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, Any]]:
    """The demo's 48 wheels refitted without a nest: folder and report."""
    home = tmp_path_factory.mktemp("demo")
    report = refitted(DEMO, scattered(home, 48, 300.0, 5), "--no-nest")
    return home / "out" / "oyster-tramway-refit", report


def test_48_rings_share_blanks_and_lie_in_pairs(demo: tuple[Path, dict[str, Any]]) -> None:
    sums = demo[1]["sums"]
    assert sums["rings"] == 48
    assert sums["blanks_one_a_ring"] == 96
    assert sums["blanks_cut"] * 2 <= sums["blanks_of_own_size"] <= 96
    assert sums["blanks_cut"] == len(demo[1]["blanks"]) == len(demo[1]["shared"])
    assert sums["largest_difference_paired_mm"] < sums["largest_difference_listed_mm"]
    assert len(demo[1]["axles"]) == 24
    assert [axle["wagon"] for axle in demo[1]["axles"]] == [f"W{i // 2 + 1}" for i in range(24)]


def test_every_wheel_has_blanks_that_fit_it(demo: tuple[Path, dict[str, Any]]) -> None:
    folder, report = demo
    sizes = {row["blank"]: row["size_mm"] for row in report["shared"]}
    assert sorted(w["wheel"] for w in report["wheels"]) == list(range(1, 49))
    assert {w["ring"] for w in report["wheels"]} == {str(i) for i in range(1, 49)}
    for wheel in report["wheels"]:
        outside = wheel["outside_circumference_mm"] / math.pi
        bore = outside - 2 * 8  # wall as drawn
        gap = (bore - sizes[wheel["disc_field_blank"]]) / 2
        assert gap == pytest.approx(wheel["disc_field_gap_mm"])
        # ISO 9013:2017 class 2: +-1.1 mm, half on the radius, and a tape of 1 mm; EN ISO 5817
        # quality C, from memory: 0.5 + 0.2 x 4
        assert 0.55 + 1 / (2 * math.pi) - 1e-9 <= gap <= 1.3 + 1e-9
        # a ring of 1 mm more across is pi mm longer, shared by three seams of 2 mm
        seam = 2 + math.pi * (outside - sizes[wheel["flange_blank"]]) / 3
        assert seam == pytest.approx(wheel["flange_seam_gap_mm"])
        assert 1 - 1e-9 <= seam <= 4 + 1e-9
    for row in report["blanks"]:
        uses = sum(
            (w["disc_field_blank"], w["disc_gauge_blank"], w["flange_blank"]).count(row["name"])
            for w in report["wheels"]
        )
        assert row["count"] == uses * (3 if row["kind"] == "flange" else 1)
        drawing = ezdxf.readfile(folder / row["file"])
        words = [entity.dxf.text for entity in drawing.modelspace().query("TEXT")]
        assert row["name"] in words
        if row["kind"] == "disc":
            circles = [c.dxf.radius for c in drawing.modelspace().query("CIRCLE")]
            assert max(circles) == pytest.approx(sizes[row["name"]] / 2)


def test_axles_tell_how_far_they_steer(demo: tuple[Path, dict[str, Any]]) -> None:
    wheels = {w["wheel"]: w["tread_diameter_mm"] for w in demo[1]["wheels"]}
    for number, axle in enumerate(demo[1]["axles"]):
        left, right = wheels[axle["left"]], wheels[axle["right"]]
        assert (left >= right) if number % 2 == 0 else (left <= right)
        assert axle["difference_mm"] == pytest.approx(abs(left - right))
        if left != right:  # R = s r / dr between rail centres, 457 + 25 mm; x^2 / 2R
            radius = 482 * (left + right) / 4 / (abs(left - right) / 2)
            assert axle["curve_radius_m"] * 1000 == pytest.approx(radius)
            assert axle["drift_mm"] == pytest.approx(1e8 / 2 / radius)
        else:
            assert (axle["curve_radius_m"], axle["drift_mm"]) == (None, 0)
    assert all(row["source"] for row in demo[1]["limits"])


def test_every_shared_blank_has_its_template(demo: tuple[Path, dict[str, Any]]) -> None:
    folder, report = demo
    files = {row["file"] for row in report["templates"]}
    assert files == {f"templates/{path.name}" for path in (folder / "templates").iterdir()}
    assert {f"templates/{row['name']}.pdf" for row in report["blanks"]} == files


def test_by_hand_its_blanks_are_marked_out_too(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"cutting.process": '"hand"'}))
    rows = [f"{i},{DRAWN + d:.1f}" for i, d in enumerate((-3, 4), start=1)]
    report = refitted(job, rings_csv(tmp_path, *rows), "--no-nest")
    file = tmp_path / "out" / f"{NAME}-refit" / "marking-out.pdf"
    said = " ".join(page.extract_text() for page in PdfReader(file).pages)
    for row in report["blanks"]:
        assert f"{row['name']}: {row['count']} off" in said


def test_the_record_has_a_line_for_each_wheel(demo: tuple[Path, dict[str, Any]]) -> None:
    folder, report = demo
    assert {path.name for path in folder.iterdir()} == FILES
    with (folder / "record.csv").open(encoding="utf-8", newline="") as source:
        rows = list(csv.DictReader(source))
    assert [row["wheel"] for row in rows] == [str(i) for i in range(1, 49)]
    for row, wheel in zip(rows, report["wheels"], strict=True):
        for name in ("wagon", "axle", "side", "ring", "disc_field_blank", "flange_blank"):
            assert row[name] == wheel[name]
        assert float(row["tread_diameter_mm"]) == pytest.approx(
            wheel["tread_diameter_mm"], abs=0.005
        )
    assert json.loads((folder / "report.json").read_text(encoding="utf-8")) == report


class _Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.rows = 0
        self.outside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in ("meta", "br", "path", "circle", "line", "rect"):
            self.open.append(tag)
        self.rows += tag == "tr"
        self.outside += [value or "" for name, value in attrs if name in ("src", "href")]

    def handle_endtag(self, tag: str) -> None:
        if tag in self.open:
            assert self.open.pop() == tag


def test_the_sheet_is_whole_and_asks_for_nothing(demo: tuple[Path, dict[str, Any]]) -> None:
    text = (demo[0] / "refit-sheet.html").read_text(encoding="utf-8")
    page = _Page()
    page.feed(text)
    assert page.open == []
    assert page.outside == []
    assert "://" not in text.replace("http://www.w3.org", "")
    assert page.rows >= 48 + 48 + 24
    assert all(row["blank"] in text for row in demo[1]["shared"])


def test_a_nest_lays_every_blank(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text())
    rows = [f"{i},{DRAWN + d:.1f}" for i, d in enumerate((-3, 0, 0.5, 4), start=1)]
    report = refitted(job, rings_csv(tmp_path, *rows))
    laid: dict[str, int] = {}
    for sheet in report["sheets"]:
        for placement in sheet["placements"]:
            laid[placement["blank"]] = laid.get(placement["blank"], 0) + sheet["repeat"]
    assert laid == {row["name"]: row["count"] for row in report["blanks"]}
    folder = tmp_path / "out" / f"{NAME}-refit"
    more = {"offcuts.toml", "offcuts-used.toml", "plates.pdf", "sheets"}
    assert {path.name for path in folder.iterdir()} == FILES | more
    assert {row["file"] for row in report["sheets"]} <= set(files_of(folder))
    # again, without: the folder is replaced as a whole
    refitted(job, tmp_path / "rings.csv", "--no-nest")
    assert {path.name for path in folder.iterdir()} == FILES


def test_spares_are_said(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"job.wheels": "4"}))
    rows = [f"{i},{DRAWN + d:.1f}" for i, d in enumerate((0, 0.5, 0.5, 0, 3, 0.5, 0.5), start=1)]
    report = refitted(job, rings_csv(tmp_path, *rows), "--no-nest")
    spare = report["wheels"][-1]
    assert (spare["ring"], spare["wheel"], spare["axle"], spare["wagon"]) == ("5", 7, None, None)
    assert [axle["wagon"] for axle in report["axles"]] == ["W1", "W1", None]
    told = " ".join(report["warnings"])
    assert "ring 5 is left over" in told
    assert "7 rings measured, the job makes 4 wheels" in told
    assert "1 of 3 axles is left over" in told
    assert "7 of 7 rings without wall" in told
    assert report["sums"]["largest_difference_paired_mm"] == pytest.approx(0.0, abs=1e-9)


def test_limits_are_told_where_they_are_passed(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text())
    head = f"{HEAD},largest_diameter_mm,smallest_diameter_mm,flange_seam_mm"
    uneven = f"a,{DRAWN:.1f},181.6,178.6,2"
    rings = rings_csv(tmp_path, uneven, f"b,{DRAWN + 4:.1f},,,-9", head=head)
    report = refitted(job, rings, "--no-nest")
    told = "\n".join(report["warnings"])
    assert "ring a: out of round by 3.00 mm" in told
    assert "axle A1: tread diameters differ by 1.27 mm, at most 0.5 mm" in told  # 4 / pi
    assert "2 flanges tried on" in told
    by_ring = {w["ring"]: w for w in report["wheels"]}
    assert by_ring["a"]["tried"]["remedy"] == "weld"
    assert by_ring["a"]["flange_blank"] is None
    assert by_ring["b"]["tried"]["trim_mm"] == pytest.approx(11)  # to the gap of 2
    assert [row["kind"] for row in report["blanks"]] == ["disc"] * len(report["blanks"])


def test_wheels_loose_on_the_axle_do_not_steer(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"axle.wheels_on_axle": '"loose"'}))
    report = refitted(job, rings_csv(tmp_path, f"1,{DRAWN:.1f}", f"2,{DRAWN + 1:.1f}"), "--no-nest")
    assert report["axles"][0]["difference_mm"] > 0
    assert report["axles"][0]["curve_radius_m"] is None


def test_inches_stand_beside_where_the_paper_has_them(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"paper.units": '"inch"'}))
    rings = rings_csv(tmp_path, f"1,{DRAWN:.1f}", f"2,{DRAWN:.1f}")
    refitted(job, rings, "--no-nest")
    text = (tmp_path / "out" / f"{NAME}-refit" / "refit-sheet.html").read_text(encoding="utf-8")
    assert "diameter 6 37/64 in (167.0)" in text  # 167 / 25.4 = 6 + 36.8 / 64


def test_tapered_rings_share_discs_between_both_sides(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text({"wheel.tread_taper_1_in": "20"}))
    report = refitted(
        job, rings_csv(tmp_path, f"1,{DRAWN:.1f}", f"2,{DRAWN + 0.5:.1f}"), "--no-nest"
    )
    for wheel in report["wheels"]:
        assert wheel["disc_field_blank"] != wheel["disc_gauge_blank"]
        # narrower faces 50 - 2 x 8 - 5 = 29 mm apart along the axle, 1 in 20 on either side
        assert wheel["disc_gauge_mm"] - wheel["disc_field_mm"] == pytest.approx(2 * 29 / 20)
    assert sum(row["count"] for row in report["blanks"] if row["kind"] == "disc") == 4


def test_a_folder_that_is_not_ours_stays(tmp_path: Path) -> None:
    job, rings = write_job(tmp_path, job_text()), rings_csv(tmp_path, f"1,{DRAWN:.1f}")
    home = tmp_path / "out" / f"{NAME}-refit"
    home.mkdir(parents=True)
    (home / "letters.txt").write_text("mine")
    result = run("refit", job, "--rings", rings, "--out", tmp_path / "out", "--no-nest")
    assert result.exit_code == 3
    assert "letters.txt" in result.stderr
    assert list(files_of(home)) == ["letters.txt"]


def test_a_blank_that_fits_no_stock_writes_nothing(tmp_path: Path) -> None:
    job = write_job(tmp_path, job_text(rows=TOO_SMALL))
    rings = rings_csv(tmp_path, f"1,{DRAWN:.1f}")
    result = run("refit", job, "--rings", rings, "--out", tmp_path / "out")
    assert result.exit_code == 3
    assert result.stderr.startswith("disc-1: 2 fit no stock")
    assert not (tmp_path / "out").exists()


def test_the_terminal_tells_blanks_axles_and_limits(tmp_path: Path) -> None:
    job, rings = write_job(tmp_path, job_text()), scattered(tmp_path, 2, 180.0, 1)
    result = run("refit", job, "--rings", rings, "--out", tmp_path / "out", "--no-nest")
    assert result.exit_code == 0
    for words in ("disc-1", "flange-1", "A1", "as paired here", "source", "refit-sheet.html"):
        assert words in result.stdout


def test_blanks_cut_before_are_used_and_only_the_rest_is_cut(tmp_path: Path) -> None:
    """The demo's rings again: fewer pieces than all, each told what is done to it first."""
    rings = scattered(tmp_path, 12, 300.0, 5)
    report = refitted(DEMO, rings, "--no-nest", "--already-cut")
    sums = report["sums"]
    new = [w for w in report["wheels"] for key in ("disc_field_blank", "disc_gauge_blank")
           if w[key] != "disc"]  # fmt: skip
    anew = [w for w in report["wheels"] if w["flange_blank"] != "flange"]
    assert sums["new_pieces"] == len(new) + 3 * len(anew) < 12 * 5
    assert sums["new_pieces"] == sum(row["count"] for row in report["blanks"])
    assert all(isinstance(wheel["first"], str) for wheel in report["wheels"])
    worked = [w["first"] for w in report["wheels"] if w["first"]]
    assert sums["rings_trued"] == sum("press" in words or "it by" in words for words in worked)
    assert worked, "this scatter asks for some"
    folder = tmp_path / "out" / "oyster-tramway-refit"
    cut = {path.stem for path in (folder / "blanks").iterdir()}
    assert cut == {row["blank"] for row in report["blanks"]}
    page = (folder / "refit-sheet.html").read_text()
    assert "cut anew" in page
    assert worked[0].split(";")[0] in page
    assert "first" in (folder / "record.csv").read_text().splitlines()[0].split(",")
