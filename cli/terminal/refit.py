"""What the terminal shows of a refit."""

from __future__ import annotations

from platewheel.cli.schema.refit import RefitReport
from platewheel.cli.terminal.show import show_sheets, show_table
from platewheel.cli.words.refit import summary_words


def show_refit(report: RefitReport) -> None:
    """Blanks, axles, limits and sums; plates where they were laid."""
    shared = {row.blank: row for row in report.shared}
    blanks = [
        (b.name, str(b.count), f"{shared[b.name].size_mm:.1f}", ", ".join(shared[b.name].rings))
        for b in report.blanks
    ]
    show_table("Blanks (disc: diameter; flange: tread)", ("blank", "cut", "mm", "rings"), blanks)
    wheels = {wheel.wheel: wheel for wheel in report.wheels}
    axles = [
        (
            axle.wagon or "spare",
            axle.axle,
            *(f"{n}: ring {wheels[n].ring}" for n in (axle.left, axle.right)),
            f"{axle.difference_mm:.2f} mm",
            "straight" if axle.curve_radius_m is None else f"{axle.curve_radius_m:.0f} m",
            f"{axle.drift_mm:.0f} mm",
        )
        for axle in report.axles
    ]
    heads = ("wagon", "axle", "left wheel", "right wheel", "differ by", "rolls in", "drift, 10 m")
    show_table("Axles", heads, axles)
    if report.sheets is not None and report.nesting is not None:
        show_sheets(report.sheets, report.nesting, [])
    limits = [(row.what, row.limit, row.source) for row in report.limits]
    show_table("Limits", ("what", "limit", "source"), limits)
    for line in summary_words(report):
        print(line)
