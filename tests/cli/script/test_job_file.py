"""A job in a script answers what the command line answers."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy
import pytest
from typer.testing import CliRunner

import platewheel
from platewheel.cli.commands.main import app
from platewheel.cli.script.changes import with_values
from platewheel.parts.geometry.blank import MarkText
from platewheel.parts.geometry.outline import Circle
from tests.cli.jobs import job_text


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("script") / "job.toml"
    file.write_text(job_text({}), encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def job(path: Path) -> platewheel.JobFile:
    return platewheel.load(path)


def test_checks_are_those_of_the_command(job: platewheel.JobFile, path: Path) -> None:
    told = json.loads(CliRunner().invoke(app, ["check", str(path), "--quick", "--json"]).stdout)
    assert [row.model_dump() for row in job.check(quick=True)] == told["checks"]


def test_a_check_is_found_by_its_id(job: platewheel.JobFile) -> None:
    checks = job.check(quick=True)
    assert checks["play-least"].id == "play-least"
    with pytest.raises(KeyError, match=r"no-such.*play-least"):
        checks["no-such"]


def test_a_change_is_judged_by_all_rules(job: platewheel.JobFile) -> None:
    with pytest.raises(platewheel.SpecError) as told:
        job.changed({"wheel.tread_diameter_mm": -1.0, "track.gauge_mm": math.nan})
    assert {fault.key for fault in told.value.faults} >= {
        "wheel.tread_diameter_mm",
        "track.gauge_mm",
    }


def test_a_change_leaves_the_first_as_it_was(job: platewheel.JobFile) -> None:
    other = job.changed({"job.wheels": 2}, payload_kg=100.0)
    assert (other.job.head.wheels, other.job.wagon.payload_kg) == (2, 100.0)
    assert other.changed(payload_kg=job.job.wagon.payload_kg, wheels=job.job.head.wheels) == job


def test_none_puts_a_key_back(job: platewheel.JobFile) -> None:
    again = job.changed(friction_high=0.4).changed(friction_high=None)
    assert again.job.use.friction_high == 0.36


def test_names_that_no_job_file_has_are_all_told(job: platewheel.JobFile) -> None:
    with pytest.raises(platewheel.SpecError) as told:
        job.changed(weld_throat=3, steel="S355")
    throat, steel = (str(fault) for fault in told.value.faults)
    assert "did you mean wheel.weld_throat_mm?" in throat
    assert "wheel.steel" in steel
    assert "axle.steel" in steel


def test_rows_are_changed_whole(job: platewheel.JobFile) -> None:
    rows = [{"steel": "S235", "thickness_mm": 6.0, "width_mm": 1500.0, "length_mm": 3000.0}]
    assert job.changed(stock=rows).job.stock[0].width_mm == 1500.0


def test_rows_may_be_taken_out_and_numbers_be_of_numpy(job: platewheel.JobFile) -> None:
    assert job.changed(offcut=None).job.offcuts == ()
    drawn = {"disc": {"file": "mine.dxf"}, "job": {"wheels": 4}}
    assert with_values(drawn, {"disc.file": None}) == {"job": {"wheels": 4}}
    other = job.changed(wheels=numpy.int64(12), payload_kg=numpy.float32(250.0))
    assert (other.job.head.wheels, other.job.wagon.payload_kg) == (12, 250.0)


@pytest.mark.parametrize("values", [{"stock": 5}, {"stock": [5]}, {5: 3}, [1], "weld_throat_mm"])
def test_what_is_no_table_of_keys_is_refused(job: platewheel.JobFile, values: Any) -> None:
    with pytest.raises(platewheel.SpecError):
        job.changed(values)


def test_what_is_no_blank_is_refused_by_name(job: platewheel.JobFile) -> None:
    with pytest.raises(platewheel.SpecError, match=r'changed\({"disc.file": "mine.dxf"'):
        job.with_disc("mine.dxf")  # type: ignore[arg-type]
    wrong: Any = None
    for ask in (
        lambda: job.with_disc(wrong),
        lambda: job.with_part("lid", 3),  # type: ignore[arg-type]
        lambda: platewheel.wheel_parts(job.job.wheel, disc=5),  # type: ignore[arg-type]
    ):
        with pytest.raises(platewheel.SpecError, match="a Blank"):
            ask()


def test_a_disc_has_no_third_side(job: platewheel.JobFile) -> None:
    for ask in (platewheel.hub_disc, platewheel.disc_blank):
        with pytest.raises(platewheel.SpecError, match=r'side: found .left.; allowed: "field"'):
            ask(job.job.wheel, "left")  # type: ignore[operator]


def test_a_part_of_ones_own_is_laid_with_the_blanks(job: platewheel.JobFile) -> None:
    thick = job.job.wheel.disc_thickness_mm
    disc = platewheel.Blank("lid", "extra", thick, Circle((0.0, 0.0), 40.0))
    laid = job.with_part(disc, 5).nest(effort="quick")
    assert laid.complete
    counted = sum(one.counts["lid"] * one.repeat for one in laid.layouts)
    assert counted == 5


def test_a_part_needs_a_name_of_its_own(job: platewheel.JobFile) -> None:
    disc = platewheel.Blank("disc", "extra", 6.0, Circle((0.0, 0.0), 40.0))
    with pytest.raises(platewheel.SpecError) as told:
        job.with_part(disc, 0)
    assert {fault.key for fault in told.value.faults} == {"name", "count"}


def test_words_of_a_part_are_such_as_can_be_marked(job: platewheel.JobFile) -> None:
    words = ("Tr\u00e4ger", "Ma\u00df", "\u6f22", "a\u202eb")
    marks = tuple(MarkText((0.0, 0.0), one, 5.0) for one in words)
    lid = platewheel.Blank("lid", "extra", 6.0, Circle((0.0, 0.0), 40.0), (), marks)
    with pytest.raises(platewheel.SpecError) as told:
        job.with_part(lid, 1)
    sharp, chinese, turned = told.value.faults
    assert (sharp.key, sharp.value, sharp.advice) == ("lid.marks[1].text", "Ma\u00df", '"Mass"')
    assert "not \u6f22" in chinese.allowed
    assert "not U+202E" in turned.allowed


def test_what_is_told_of_steel_and_cost(job: platewheel.JobFile) -> None:
    laid, cost = job.nest(effort="quick"), job.cost()
    assert f"{laid.totals.sheets_used} plates" in str(laid)
    assert f"{cost.per_wheel:.2f}" in str(cost)
    assert "<table" in cost._repr_html_()


def test_solids_weigh_what_the_wheel_weighs(job: platewheel.JobFile) -> None:
    solids = job.solids(welds=False)
    steel = math.fsum(solid.Volume() for solid in solids.values()) * 7.85e-6
    wheel = job.job.wheel
    welds = platewheel.wheel_mass_kg(wheel) - steel
    assert 0 < welds < 0.1 * steel


def test_inches_are_shown_where_the_job_has_inches(job: platewheel.JobFile) -> None:
    other = job.changed({"paper.units": "inch"}).check(quick=True)
    assert " in" in str(other)
    assert str(other) != str(job.check(quick=True))


def test_arguments_are_held_to_their_ranges(job: platewheel.JobFile) -> None:
    with pytest.raises(platewheel.SpecError) as told:
        job.nest(effort="hasty", seed=-1)  # type: ignore[arg-type]
    assert {fault.key for fault in told.value.faults} == {"effort", "seed"}
    with pytest.raises(platewheel.SpecError) as told:
        platewheel.propose(job, step_mm=0.0, analyses=3, most_diameter_mm=1e9)
    keys = {fault.key for fault in told.value.faults}
    assert keys == {"step_mm", "analyses", "most_diameter_mm"}
    with pytest.raises(platewheel.SpecError, match="up to most_diameter_mm, 300 mm"):
        platewheel.propose(job, least_diameter_mm=400.0, most_diameter_mm=300.0)


def spoked(job: platewheel.JobFile) -> platewheel.Blank:
    plain = platewheel.disc_blank(job.job.wheel)
    slots = [platewheel.Circle((x, 0.0), 8.0) for x in (-45.0, 45.0)]
    return platewheel.Blank(
        "mine", "disc", plain.thickness_mm, plain.outline, (plain.holes[-1], *slots)
    )


def test_no_check_that_may_ask_about_the_disc_passes_one_of_ones_own(
    job: platewheel.JobFile,
) -> None:
    own = job.with_disc(spoked(job))
    checks, plain = own.check(), job.check(quick=True)
    assert {row.id for row in checks} == {row.id for row in plain}
    passed = {row.id for row in checks if row.verdict != "not-assessed"}
    assert {"play-least", "flange-climb"} <= passed
    words = ("disc", "vent", "rating", "weld", "hub", "zinc", "galvan", "web", "cut")
    assert [one for one in passed if any(word in one for word in words)] == ["weld-root"]
    assert own.rate() is None
    assert "not assessed" in str(checks)


def test_discs_of_ones_own_are_laid_in_place_of_the_plain_ones(job: platewheel.JobFile) -> None:
    own = job.with_disc(spoked(job))
    laid = [one.nest(effort="quick") for one in (job, own)]
    areas = [one.totals.parts_area_mm2 for one in laid]
    less = platewheel.disc_blank(job.job.wheel).area_mm2 - spoked(job).area_mm2
    assert areas[0] - areas[1] == pytest.approx(less * 2 * job.job.head.wheels)
    assert own.solids(welds=False)["disc-gauge"].Volume() == pytest.approx(spoked(job).volume_mm3)
    wide = replace(spoked(job), outline=Circle((0.0, 0.0), 83.2))
    with pytest.raises(platewheel.SpecError, match=r"disc\.outline: found 166\.4"):
        job.with_disc(wide).build("nowhere")
    with pytest.raises(platewheel.SpecError, match=r"disc: found .*and no rating knows it"):
        platewheel.propose(own)
    with pytest.raises(platewheel.SpecError, match=r"disc\.thickness_mm"):
        own.changed(disc_thickness_mm=6.0)


def test_lines_may_end_as_in_a_job_file_of_any_system(
    job: platewheel.JobFile, tmp_path: Path
) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(job_text({}).replace("\n", "\r").encode())
    assert platewheel.load(file).table == job.table


def test_a_script_may_go_elsewhere(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = path.read_text("utf-8").replace("[job]\n", '[job]\nledger = "stock.toml"\n', 1)
    for name, free in (("here", "free"), ("there", "used")):
        home = tmp_path / name
        home.mkdir()
        (home / "mine.toml").write_text(text, "utf-8")
        piece = f'[[plate]]\nname = "of-{name}"\nstate = "{free}"\nthickness_mm = 6\n'
        size = "width_mm = 1250\nlength_mm = 2500\n"
        (home / "stock.toml").write_text(piece + size, "utf-8")
    monkeypatch.chdir(tmp_path / "here")
    loaded = platewheel.load("mine.toml")
    monkeypatch.chdir(tmp_path / "there")
    for one in (loaded, loaded.changed(tread_diameter_mm=300.0)):
        assert one.job.rack is not None
        assert one.job.rack.ledger.path.resolve() == tmp_path / "here" / "stock.toml"
        assert [piece.name for piece in one.job.rack.ledger.pieces] == ["of-here"]
        assert one.job.rack.file == str(tmp_path / "here" / "mine.toml")
