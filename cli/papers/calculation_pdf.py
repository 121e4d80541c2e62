"""calculation.pdf: every check and rating with formula, numbers, result, limit and source, for the
engineer who signs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from importlib.metadata import version
from typing import Any

from platewheel.cli.job.job import Job
from platewheel.cli.job.wheelset import job_wheelset
from platewheel.cli.papers.calculation import words
from platewheel.cli.papers.calculation.checks import (
    ROOMS,
    check_data,
    counted,
    left_open,
    line_data,
    result_data,
)
from platewheel.cli.papers.calculation.lines import Calculation, Told, calculation_lines
from platewheel.cli.papers.calculation.material import SOURCE, key_rows, steel_rows
from platewheel.cli.papers.calculation.memory import from_memory, standards
from platewheel.cli.papers.calculation.notches import notch_rows, use_rows
from platewheel.cli.papers.calculation.rating import rating_data, sources, told_beside
from platewheel.cli.papers.drawings.on_the_rail import on_the_rail
from platewheel.cli.papers.drawings.section import section_picture
from platewheel.cli.papers.drawings.wheelset import wheelset_picture
from platewheel.cli.papers.typeset import typeset
from platewheel.cli.report.loads import load_rows
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.workings.of_checks import Working, workings

BEFORE_RATING = ("running", "strength")


def calculation_pdf(
    job: Job, results: Sequence[CheckResult], found: Assessment | None = None, stress: str = ""
) -> bytes:
    """The paper; `results` are all checks of the job, `found` what they rest on where the stress
    analysis was run, `stress` its picture. Raises: NotFinished where the template is broken.
    """
    data = calculation_data(job, results, found)
    pictures = _pictures(job) | ({"stress.svg": stress} if stress else {})
    return typeset("calculation.typ", {**data, "pictures": list(pictures)}, pictures)


def calculation_data(
    job: Job, results: Sequence[CheckResult], found: Assessment | None
) -> dict[str, Any]:
    """What the template reads."""
    setting, paper, units = job.setting, job.paper, job.paper.units
    made = job_wheelset(job).wheelset
    every = workings(setting, made)
    rated = [one for name in words.RATED for one in results if one.id == name]
    lines = calculation_lines(every, _numbers(every, len(rated)), units)
    loads = load_rows(setting)
    cited = [*sources(setting), *((one.name, one.source) for one in loads)]
    cited += [(one.id, one.source) for one in rated]
    cited += [] if made is None else [("K_f of the axle", words.NOTCHES)]
    groups = list(_groups(lines, results, rated, units))
    return {
        "title": f"{job.head.name}: calculation",
        "job": job.head.name,
        "version": f"platewheel {version('platewheel')}",
        "wheels": so_many(job.head.wheels, "wheel"),
        "page": {
            "width_mm": paper.width_mm,
            "height_mm": paper.height_mm,
            "margin_mm": paper.margin_mm,
        },
        "words": {
            "purpose": list(words.FOR),
            "assumed": list(words.ASSUMED),
            "not_covered": list(words.NOT_COVERED),
            "cautions": list(words.CAUTIONS),
            "memory": words.IN_MEMORY,
            "notches": words.NOTCHES,
            "signatures": list(words.SIGNATURES),
        },
        "counted": counted(results),
        "groups": groups,
        "open": left_open(groups),
        "beside": [] if found is None else told_beside(setting, found),
        "shared": [
            {"heading": heading, "lines": [line_data(line) for line in some]}
            for heading, some in lines.shared
        ],
        "steels": steel_rows(job, made),
        "steel_source": SOURCE,
        "keys": key_rows(job),
        "loads": [
            [one.name, f"{one.value:.0f} {one.unit}".strip(), one.how, one.source] for one in loads
        ],
        "rating": None if found is None else rating_data(setting, found, units),
        "notches": [] if made is None else notch_rows(setting, made),
        "uses": None if made is None else use_rows(setting, made),
        "standards": [[one.what, ", ".join(one.by)] for one in standards(every, cited)],
        "memory": [[one.what, ", ".join(one.by)] for one in from_memory(every, cited)],
    }


def _numbers(every: Sequence[Working], rated: int) -> list[int]:
    """Of the checks as they stand on the paper: the rating comes after strength."""
    first = sum(one.room in BEFORE_RATING for one in every)
    return [k if k <= first else k + rated for k in range(1, len(every) + 1)]


def _groups(
    lines: Calculation, results: Sequence[CheckResult], rated: Sequence[CheckResult], units: Units
) -> Iterator[dict[str, Any]]:
    by_id = {one.id: one for one in results}
    first = sum(one.working.room in BEFORE_RATING for one in lines.checks) + 1
    for room, heading in ROOMS.items():
        checks = [
            check_data(one.number, one, by_id, units)
            for one in lines.checks
            if one.working.room == room
        ]
        if room == "rating":
            checks = [
                {**_rated(k, one, units), "asks": words.RATED[one.id]}
                for k, one in enumerate(rated, first)
            ]
        if checks:
            yield {"room": room, "heading": heading, "checks": checks}


def _rated(number: int, result: CheckResult, units: Units) -> dict[str, Any]:
    value, limit, whence = words.SIDES[result.id]
    sides = (Told(value, ""), Told(limit, whence))
    return result_data(number, result, units, at_most=False, sides=sides)


def _pictures(job: Job) -> dict[str, str]:
    units, made = job.paper.units, job_wheelset(job).wheelset
    pictures = {
        "section.svg": section_picture(job.wheel, units, job.own_disc),
        "rail.svg": on_the_rail(job.setting, units),
    }
    if made is not None:
        pictures["wheelset.svg"] = wheelset_picture(job.setting, made, units)
    return pictures
