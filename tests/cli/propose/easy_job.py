"""The demo on a line where a shallow flange is warned of by its depth alone."""

from __future__ import annotations

from dataclasses import replace

from platewheel.cli.job.job import read_job
from tests.places import DEMO

DEMO_JOB = read_job(DEMO)
EASY = {"rail_corner_radius_mm": 1.0, "check_rail_flangeway_mm": None, "flangeway_mm": 34.0}
# a sharp rail, wide flangeways, little use
JOB = replace(
    DEMO_JOB,
    track=DEMO_JOB.track.model_copy(update=EASY),
    use=DEMO_JOB.use.model_copy(update={"km_per_year": 30.0, "flange_wear_mm": 1.0}),
)
