"""A refit after the strips were cut: the plate that they came off is no whole one."""

from __future__ import annotations

import tomllib

import pytest

from platewheel.cli.job.job import job_of
from platewheel.cli.refit.rows import plate_words
from tests.cli.jobs import job_text

PIECE = """
[[offcut]]
name = "rest"
thickness_mm = 6
outline = [[0, 0], [600, 0], [600, 400], [0, 400]]
"""


@pytest.mark.parametrize(
    ("thick", "more", "told"),
    [
        ({"wheel.tread_thickness_mm": "6", "wheel.disc_thickness_mm": "6"}, "", True),
        ({"wheel.tread_thickness_mm": "6", "wheel.disc_thickness_mm": "6"}, PIECE, False),
        ({"wheel.tread_thickness_mm": "6", "wheel.disc_thickness_mm": "5"}, "", False),
        (
            {
                "wheel.tread_thickness_mm": "6",
                "wheel.disc_thickness_mm": "6",
                "wheel.tread_from": '"pipe"',
            },
            "",
            False,
        ),
    ],
)
def test_the_plate_that_strips_came_off_is_asked_for(
    thick: dict[str, str], more: str, told: bool
) -> None:
    job = job_of(tomllib.loads(job_text(thick) + more))
    lines = list(plate_words(job))
    assert bool(lines) is told
    assert all("6 mm" in line and "[[offcut]]" in line for line in lines)
