"""A job file with another wheel: everything else stays as it is written."""

from __future__ import annotations

import tomllib

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.job.written_wheel import with_wheel
from tests.places import DEMO


def test_values_change_and_the_rest_stays() -> None:
    text = DEMO.read_text(encoding="utf-8")
    wheel = read_job(DEMO).wheel.model_dump() | {"tread_diameter_mm": 280.0, "root_weld_mm": 6.0}
    written = with_wheel(text, wheel)
    before, after = tomllib.loads(text), tomllib.loads(written)
    assert after.pop("wheel") == wheel
    before.pop("wheel")
    assert after == before
    assert "tread_diameter_mm = 280\n" in written
    assert "root_weld_mm = 6\n" in written  # its comment spoke of the old value
    assert "gauge_widening_mm = 2\n" in written
    assert "# into the landing" in written


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("wheel = {a_mm = 300, b = 1}  # ours\n", "wheel = {a_mm = 280, b = 1}  # ours\n"),
        ('[wheel]\n"a_mm" = 300 # old\nb = 1 # kept\n', '[wheel]\n"a_mm" = 280\nb = 1 # kept\n'),
        ("wheel.a_mm = 300\nwheel.b = 1\n", "wheel.a_mm = 280\nwheel.b = 1\n"),
        ("[wheel]\r\na_mm = 300\r\nb = 1\r\n", "[wheel]\r\na_mm = 280\r\nb = 1\r\n"),
    ],
)
def test_however_the_table_is_written(text: str, written: str) -> None:
    assert with_wheel(text, {"a_mm": 280.0, "b": 1}) == written


def test_a_key_left_to_its_default_is_added_to_its_table() -> None:
    written = with_wheel("[wheel]\na = 1\n\n[finish]\ncoating = 'bare'\n", {"a": 1, "b": "x"})
    assert tomllib.loads(written) == {"wheel": {"a": 1, "b": "x"}, "finish": {"coating": "bare"}}


def test_a_sum_that_is_not_round_is_written_rounded() -> None:
    """0.32 + 0.25 is 0.5700000000000001."""
    wheel = read_job(DEMO).wheel.model_dump() | {"fit_clearance_mm": 0.32 + 0.25}
    written = with_wheel(DEMO.read_text(encoding="utf-8"), wheel)
    assert tomllib.loads(written)["wheel"]["fit_clearance_mm"] == 0.57


@pytest.mark.parametrize(
    ("text", "written"),
    [
        (
            "[wheel]\na = 1\n\n[axle]\nback_to_back_mm = 425  # as built\nsteel = 'C45'\n",
            "[wheel]\na = 1\n\n[axle]\nback_to_back_mm = 427.5\nsteel = 'C45'\n",
        ),
        (
            "[axle]  # ours\n[wheel]\na = 1\n",
            "[axle]  # ours\nback_to_back_mm = 427.5\n[wheel]\na = 1\n",
        ),
        (
            "wheel.a = 1\naxle.steel = 'C45'\n",
            "wheel.a = 1\naxle.steel = 'C45'\naxle.back_to_back_mm = 427.5\n",
        ),
    ],
)
def test_a_back_to_back_goes_into_the_axle(text: str, written: str) -> None:
    assert with_wheel(text, {"a": 1}, 427.5) == written


def test_an_axle_is_added_where_there_is_none_and_left_where_it_is_right() -> None:
    text = "[wheel]\na = 1\n\n[finish]\ncoating = 'bare'\n"
    added = tomllib.loads(with_wheel(text, {"a": 1}, 427.5))
    assert added == tomllib.loads(text) | {"axle": {"back_to_back_mm": 427.5}}
    right = "[wheel]\na = 1\n[axle]\nback_to_back_mm = 427.5 # measured\n"
    assert with_wheel(right, {"a": 1}, 427.5) == right
    assert with_wheel(right, {"a": 1}) == right
