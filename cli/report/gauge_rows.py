"""The job's gauges as rows of the report."""

from __future__ import annotations

from platewheel.cli.job.job import Job
from platewheel.cli.schema.gauge import GaugeRow, MeasureRow
from platewheel.parts.gauges.gauge import TRUE_MM


def gauge_rows(job: Job) -> list[GaugeRow]:
    """By number; none for a job that asks for none."""
    return [
        GaugeRow(
            number=gauge.number,
            name=gauge.blank.name,
            title=gauge.title,
            count=job.gauges.number,
            file=f"blanks/{gauge.blank.name}.dxf",
            sizes=[MeasureRow.of(size) for size in gauge.sizes],
            true_mm=TRUE_MM,
            use=gauge.use,
        )
        for gauge in job.made_gauges
    ]
