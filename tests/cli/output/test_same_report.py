"""report.json: no clock in it, and no last bits of sums."""

from __future__ import annotations

from platewheel.cli.schema.propose import ProposeReport
from platewheel.cli.schema.refit import RefitReport
from platewheel.cli.schema.report import Report
from platewheel.cli.schema.row import Row


class Sums(Row):
    length_mm: float
    corners: list[list[float]]
    more: list[Sums] = []  # noqa: RUF012 - a field
    none: float | None = None


def test_figures_are_written_as_they_are_meant() -> None:
    """0.1 + 0.2 in IEEE 754 is 0.30000000000000004."""
    one = Sums(length_mm=0.1 + 0.2, corners=[[1 / 3, 15.399999999999977]])
    both = Sums(length_mm=2e6 / 7, corners=[], more=[one])
    assert both.model_dump() == {
        "length_mm": 285714.285714,
        "corners": [],
        "more": [
            {"length_mm": 0.3, "corners": [[0.333333333333, 15.4]], "more": [], "none": None},
        ],
        "none": None,
    }
    assert '"length_mm":0.3,' in both.model_dump_json()


def test_no_report_tells_how_long_it_took() -> None:
    for report in (Report, RefitReport, ProposeReport):
        text = str(report.model_json_schema())
        assert "'length_mm'" in text or report is not Report
        assert "'seconds'" not in text
