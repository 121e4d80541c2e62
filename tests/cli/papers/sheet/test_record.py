"""The record on the job sheet numbers every wheel, axle and wagon."""

from __future__ import annotations

import re
from pathlib import Path

from platewheel.cli.job.job import read_job
from platewheel.cli.papers.sheet.record import COLUMNS, record_form
from platewheel.cli.refit.rows import wheel_records
from platewheel.parts.refit.measured_ring import MeasuredRing
from platewheel.parts.refit.plan import plan_refit
from tests.cli.jobs import job_text, write_job


def test_seven_wheels_of_two_axled_wagons(tmp_path: Path) -> None:
    changes = {"job.wheels": "7", "wagon.axles": "2"}
    page = record_form(read_job(write_job(tmp_path, job_text(changes))))
    rows = re.findall(r"<tr>(<td.*?)</tr>", page, re.DOTALL)
    cells = [re.findall(r"<td[^>]*>(.*?)</td>", row) for row in rows]
    assert [row[:3] for row in cells] == [
        ["1", "A1", "W1"],
        ["2", "A1", "W1"],
        ["3", "A2", "W1"],
        ["4", "A2", "W1"],
        ["5", "A3", "spare"],
        ["6", "A3", "spare"],
        ["7", "", "spare"],
    ]
    assert all(cell == "" for row in cells for cell in row[3:])
    assert {len(row) for row in cells} == {len(COLUMNS)}


def test_measured_rings_fill_it(tmp_path: Path) -> None:
    job = read_job(write_job(tmp_path, job_text({"job.wheels": "3", "wagon.axles": "1"})))
    rings = [
        MeasuredRing(ring=name, outside_circumference_mm=tape)
        for name, tape in (("a", 565.0), ("b", 567.0), ("c", 565.2))
    ]
    page = record_form(job, wheel_records(job, plan_refit(job.setting, rings)))
    rows = [
        re.findall(r"<td[^>]*>(.*?)</td>", row) for row in re.findall(r"<tr>(<td.*?)</tr>", page)
    ]
    assert {(row[1], row[2]) for row in rows} == {("A1", "W1"), ("", "spare")}
    assert [row[3] for row in rows if row[1]] in (["a", "c"], ["c", "a"])
    assert [row[4] for row in rows if row[3] == "b"] == ["567.0 mm"]
