"""A job with [axle]: its axles are bought, priced, made, checked and drawn; without, nothing."""

from __future__ import annotations

import json
import math
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job.job import job_of
from platewheel.cli.job.wheelset import job_checks, job_wheelset
from platewheel.cli.output.folder import write_folder
from platewheel.cli.papers.drawings.wheelset import wheelset_picture
from platewheel.cli.papers.sheet.steps import figure_value
from platewheel.cli.papers.sheet.wheelset import wheelset_section
from platewheel.cli.report.wheelset_rows import wheelset_row
from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.checks.run import run_checks
from tests.cli.jobs import NAME, ROWS, files_of, job_text, run, write_job
from tests.cli.shop import shop, steps

AXLE = {"axle.frames": '"outside"'}  # bore 30: bright bar of 30, UC206 at both ends, keys
BAR = ROWS + "\n[[round]]\ndiameter_mm = 30\nlength_mm = 3000\nprice = 44\n"
PRICES = {
    "costs.bearing_price": "11",
    "costs.wheel_holding_price": "7",
    "costs.tube_price_per_kg": "3",
    "costs.labour_price_per_h": "24",
    "costs.axle_minutes": "50",
}
KINDS = {"round", "bearing", "bush", "spacer", "holding"}


def made(changes: dict[str, str], rows: str = ROWS) -> tuple[Any, Any]:
    """The job, and its wheelset's row."""
    job = job_of(tomllib.loads(job_text(AXLE | changes, rows=rows)))
    found = job_wheelset(job).wheelset
    assert found is not None
    return job, wheelset_row(job, found)


def test_bar_bearings_and_keys_are_bought() -> None:
    """Ten wheels, five axles of some 0.6 m: five go on a bar of 3 m only where 5 x 0.6 < 3."""
    changes = AXLE | PRICES | {"job.wheels": "10"}
    job, row = made(changes, BAR)
    each = math.floor((3000 + 1.5) / (row.piece_mm + job.cutting.kerf_mm))
    bars = -(-5 // each)
    list_of = shop(changes, rows=BAR)
    (bar,) = list_of.bought("round")
    assert bar.quantity == bars
    assert bar.price == pytest.approx(44 * bars)
    # steel 7.85 kg a dm3 (EN 10025 dealers' tables, from memory): 30 mm round weighs 5.55 kg/m
    assert bar.mass_kg == pytest.approx(bars * 3 * 5.549, rel=1e-3)
    (bearing,) = list_of.bought("bearing")
    assert "UC206" in bearing.item
    assert (bearing.quantity, bearing.price) == (10, 110)
    (keys,) = list_of.bought("holding")
    # ISO 773: key 8 x 7 for shafts over 22 to 30 mm (from memory)
    assert "parallel keys 8 x 7" in keys.item
    assert (keys.quantity, keys.price) == (5, 35)
    assert list_of.bought("spacer")


def test_an_axle_has_a_cost_of_its_own_and_a_wheel_costs_as_before() -> None:
    changes = PRICES | {"job.wheels": "10"}
    bare, with_axle = shop(changes, rows=BAR), shop(changes | AXLE, rows=BAR)
    assert with_axle.cost.per_wheel == pytest.approx(bare.cost.per_wheel)
    assert bare.cost.axle_parts == []
    bought = sum(row.price or 0.0 for row in with_axle.buying if row.kind in KINDS)
    assert with_axle.cost.per_axle == pytest.approx(bought / 5 + 50 / 60 * 24)
    assert f"An axle without its wheels costs {with_axle.cost.per_axle:.2f}" in with_axle.cost.says
    more = with_axle.time.hours - bare.time.hours
    assert more == pytest.approx(5 * 50 / 60)


def test_what_has_no_price_is_told() -> None:
    found = shop(AXLE)
    rows = [row for row in found.buying if row.kind in KINDS]
    assert {row.kind for row in rows} == {"round", "bearing", "spacer", "holding"}
    for row in rows:
        assert row.price is None
        assert row.says.startswith("not priced: ")
    assert all(part.price is None for part in found.cost.axle_parts)
    (bar,) = found.bought("round")
    by_mass = shop(AXLE | {"costs.steel_price_per_kg": "2"}).bought("round")[0]
    assert by_mass.price == pytest.approx(2 * (bar.mass_kg or 0.0))


def test_too_few_bars_are_told() -> None:
    few = BAR.replace("length_mm = 3000", "length_mm = 700\ncount = 1")
    job, row = made({"job.wheels": "6"}, few)
    assert (sum(cut.repeat * cut.pieces for cut in row.cuts), row.missing) == (1, 2)
    bars = shop(AXLE | {"job.wheels": "6"}, rows=few).bought("round")
    assert ["2 lengths" in bar.item for bar in bars] == [False, True]
    assert f"2 axles of {row.piece_mm:.0f} mm without a bar" in wheelset_section(job, row, "<svg/>")


def test_ends_of_bar_are_left_for_the_next_job(own_folder: Path) -> None:
    """An axle of a bar of 3 m: the rest, less the saw cut, is a [[round]] of offcuts.toml; the
    next job saws it before a whole bar."""
    write_job(own_folder, job_text(AXLE, rows=BAR))
    assert run("nest", "job.toml").exit_code == 0
    text = (own_folder / "out" / NAME / "offcuts.toml").read_text(encoding="utf-8")
    rests = tomllib.loads(text)["round"]
    job, row = made({}, BAR)
    assert job.head.wheels == 2
    used = row.piece_mm + job.cutting.kerf_mm
    rest = 3000 - used
    assert [(r["diameter_mm"], r["length_mm"], r["count"]) for r in rests] == [
        (30, math.floor(rest), 1)
    ]
    next_rows = BAR + text[text.index("[[round]]") :]
    (cut,) = made({}, next_rows)[1].cuts
    assert cut.rest_mm == pytest.approx(rests[0]["length_mm"] - used)


def test_the_step_comes_before_gauging_and_tells_this_axle() -> None:
    ids = [step.id for step in steps(AXLE).steps]
    assert ids.index("axle") < ids.index("holes") < ids.index("coat")
    assert ids[ids.index("wheelset") + 1] == "gauge"
    _, row = made({})
    step = steps(AXLE).step("axle")
    text = " ".join(step.do)
    assert f"{row.axle_length_mm:.0f}" in text
    assert "UC206" in " ".join(steps(AXLE).step("wheelset").do)
    assert any("chock" in caution for caution in step.cautions)
    assert "axle" not in [step.id for step in steps().steps]


def test_sizes_for_a_micrometer_are_told_to_a_thousandth() -> None:
    """30 h6 is -13 to 0 um (ISO 286-2, from memory): not 30 mm at least."""
    rows = {row.name: row for row in steps(AXLE).step("axle").figures}
    least, most = (rows[f"wheel on axle, shaft h6, {word}"] for word in ("least", "greatest"))
    assert tuple(figure_value(row).told("mm") for row in (least, most)) == (
        "29.987 mm",
        "30.000 mm",
    )
    assert figure_value(least).told("inch") == "1.1806 in (29.987 mm)"


def test_turned_steps_and_welds_are_told() -> None:
    turned = steps(AXLE | {"axle.journal_diameter_mm": "25", "axle.retention": '"weld"'})
    text = " ".join(turned.step("axle").do)
    assert "diameter 25 mm" in text
    assert "radius of 2 mm" in text
    assert any("zinc" in caution for caution in turned.step("wheelset").cautions)
    ids = [step.id for step in turned.steps]
    assert ids.index("wheelset") < ids.index("coat") < ids.index("bearings")


def drawn(job: Any, row: Any) -> str:
    found = job_wheelset(job).wheelset
    assert found is not None
    return wheelset_section(job, row, wheelset_picture(job.setting, found, job.paper.units))


def test_section_of_the_job_sheet_in_mm_and_inches() -> None:
    job, row = made({})
    page = drawn(job, row)
    assert page.count("<svg") == 1
    for label in ("gauge 381", f"back to back {row.back_to_back_mm:.1f}", "UC206", "rail"):
        assert label in page, label
    # 30 H7 is 0 to +21 um, 30 h6 -13 to 0 (ISO 286-2, from memory)
    assert "H7: 30.000 to 30.021" in page
    assert "h6: 29.987 to 30.000" in page
    job, row = made({"paper.units": '"inch"'})
    inches = drawn(job, row)
    assert "gauge 15 in" in inches  # 381 = 15 x 25.4
    assert "1.1811 to 1.1819 in" in inches or "1.1811 in to 1.1819 in" in inches


def test_a_job_without_an_axle_says_what_would_give_it_one() -> None:
    job = job_of(tomllib.loads(job_text()))
    assert job_wheelset(job).wheelset is None
    assert "[axle]" in wheelset_section(job, None, "")
    assert not {row.kind for row in shop().buying} & KINDS
    assert [c.id for c in job_checks(job)] == [c.id for c in run_checks(job.setting)]


def test_its_checks_are_among_the_jobs() -> None:
    job, _ = made({})
    ids = {check.id for check in job_checks(job)}
    assert {"axle-fatigue", "wheel-held", "bearing-life"} <= ids
    assert len(ids) == len(job_checks(job))


@pytest.mark.parametrize("command", ["build", "check", "nest", "propose", "wheelset"])
def test_an_axle_that_cannot_be_made_is_refused(command: str, tmp_path: Path) -> None:
    """Else its checks would be missing without a word."""
    changes = {"axle.bearing_name": '"UC999"', "job.wheels": "1"}
    result = run(command, write_job(tmp_path, job_text(changes)))
    assert result.exit_code == 2
    assert "axle.bearing_name: found 'UC999'" in result.stderr
    assert 'try: bearing_name = "UC2' in result.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == ["job.toml"]


def test_faults_of_axle_and_cutting_are_told_together(tmp_path: Path) -> None:
    rows = "[[cut_speed]]\nthickness_mm = 1\nspeed_mm_per_min = 100\npierce_s = 1\n"
    changes = {"axle.bearing_name": '"UC999"'}
    result = run("check", write_job(tmp_path, job_text(changes, rows=ROWS + rows)))
    assert result.exit_code == 2
    assert "axle.bearing_name" in result.stderr
    assert "cut_speed" in result.stderr


def test_build_writes_its_solids_and_its_row(tmp_path: Path) -> None:
    result = run("build", write_job(tmp_path, job_text(AXLE, rows=BAR)), "--out", tmp_path / "out")
    assert result.exit_code == 1  # a tube of 42 is thin over a keyway in a bore of 30
    assert "hub_tube_outside_mm = 44" in result.stdout.replace("\n", " ")
    folder = tmp_path / "out" / NAME
    row = json.loads((folder / "report.json").read_text(encoding="utf-8"))["wheelset"]
    assert (row["axles"], row["bearing"], row["missing"]) == (1, "UC206", 0)
    step = (folder / "solids" / "wheelset.step").read_text(encoding="utf-8")
    names = set(re.findall(r"PRODUCT\('([^']+)'", step))
    assert {"axle", "key", "wheel", "rail (for reference)"} <= names
    for name in ("axle", "key", "spacer"):
        assert f"PRODUCT('{name}'" in (folder / "solids" / f"{name}.step").read_text("utf-8")
    bar = math.pi / 4 * 30**2 * row["axle_length_mm"] * DENSITY_KG_MM3
    assert 0.95 * bar < row["axle_kg"] < bar
    page = (folder / "job-sheet.html").read_text(encoding="utf-8")
    assert "The wheelset" in page
    # every file is known as this program's own, so that the next build may replace the folder
    write_folder(tmp_path / "out", NAME, lambda home: (home / "report.json").write_text("{}"))
    assert set(files_of(folder)) == {"report.json"}
