"""Values that are allowed and yet odd are asked about; what is usual is not."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.job.questions import questions
from platewheel.cli.job.usual import USUAL
from platewheel.cli.schema.job_sections import KINDS
from platewheel.nesting.drawings.extra import Extra, ExtraPart
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import example
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle
from tests.cli.jobs import ROWS, job_text, run, write_job
from tests.places import DEMO


def asked(folder: Path, changes: dict[str, str], rows: str = ROWS) -> list[str]:
    return questions(read_job(write_job(folder, job_text(changes, rows=rows))))


def test_nothing_is_asked_of_the_demo() -> None:
    assert questions(read_job(DEMO)) == []


ODD: dict[str, tuple[dict[str, str], str]] = {
    "cm": ({"wagon.wheelbase_mm": "120"}, "1200, if 120 is in cm"),
    "radius in mm": ({"track.min_curve_radius_m": "9500"}, "9.5, if 9500 is in mm"),
    "tonnes": ({"wagon.payload_kg": "0.4"}, "400, if 0.4 is in t"),
    "point": ({"wagon.centre_of_gravity_mm": "2900"}, "290, if 2900 lacks its point"),
}


@pytest.mark.parametrize("case", ODD)
def test_another_unit_is_asked_about_and_taken(case: str, tmp_path: Path) -> None:
    changes, words = ODD[case]
    lines = asked(tmp_path, changes)
    ((key, value),) = changes.items()
    (line,) = [one for one in lines if f"{key}: found {value}; did you mean" in one]
    assert words in line
    assert line.startswith("line ")


def test_one_that_is_refused_for_its_unit_is_told_beside_the_rule(tmp_path: Path) -> None:
    with pytest.raises(SpecError) as caught:
        asked(tmp_path, {"wheel.tread_width_mm": "10"})
    faults = {fault.key: fault for fault in caught.value.faults}
    assert any("discs do not collide" in fault.allowed for fault in faults.values())
    assert faults["wheel.tread_width_mm"].advice == "write tread_width_mm = 100, if 10 is in cm"


def test_a_plate_in_metres_is_asked_about(tmp_path: Path) -> None:
    rows = "[[stock]]\nthickness_mm = 6\nwidth_mm = 1.25\nlength_mm = 2.5\n"
    width, length = asked(tmp_path, {}, rows)
    assert "stock[0].width_mm: found 1.25; did you mean 1250, if 1.25 is in m?" in width
    assert "2500, if 2.5 is in m" in length


@pytest.mark.parametrize(
    ("wheels", "words"), [(5, "4 or 8? A wagon of 2 axles has 4"), (3, "4?"), (4, ""), (6, "")]
)
def test_wheels_that_make_no_axle_are_asked_about(wheels: int, words: str) -> None:
    job = read_job(DEMO)
    lines = questions(replace(job, head=job.head.model_copy(update={"wheels": wheels})))
    assert len(lines) == bool(words)
    assert all(f"did you mean {words}" in line for line in lines)


def test_a_circumference_for_a_diameter_is_asked_about() -> None:
    job = read_job(DEMO)
    taped = job.wheel.model_copy(update={"tread_diameter_mm": 942.5})
    (line,) = questions(replace(job, wheel=taped))
    assert "wheel.tread_diameter_mm: found 942.5; did you mean 300.0?" in line
    bar = job.rounds[0].model_copy(update={"diameter_mm": 125.7})
    (line,) = questions(replace(job, rounds=(bar,)))
    assert "round[0].diameter_mm: found 125.7; did you mean 40.0?" in line


def test_what_is_usual_names_keys_and_holds_their_examples() -> None:
    for place, (low, high) in USUAL.items():
        section, key = place.split(".")
        assert low < high
        assert low <= example(KINDS[section].model_fields[key]) <= high


def test_check_asks_and_goes_on(own_folder: Path) -> None:
    told = run("check", write_job(own_folder, job_text({"job.wheels": "5"})), "--quick")
    assert told.exit_code == 0
    assert "job.wheels: found 5; did you mean 4 or 8?" in told.stderr


def test_layers_of_no_drawing_are_told_and_stop_nothing(tmp_path: Path) -> None:
    """Whoever takes a part out for a while, by hand or by `changed(extra=None)`, keeps its rows."""
    rows = f'{ROWS}[[drawing_layer]]\nname = "ENGRAVE"\nuse = "mark"\n'
    job = read_job(write_job(tmp_path, job_text(rows=rows)))
    (line,) = questions(job)
    assert line.startswith("line ")
    assert "drawing_layer: nothing is made of it; did you mean to have an [[extra]]" in line
    lid = Blank("lid", "extra", 6.0, Circle((0.0, 0.0), 40.0))
    spec = Extra(name="lid", file="lid.dxf", thickness_mm=6.0, count=1)
    assert questions(replace(job, extras=(ExtraPart(spec, lid, "S235"),))) == []
