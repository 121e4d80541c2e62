"""Checks as a notebook shows them: a result that is the last line of a cell is a table in HTML.

Here the same HTML is written to checks.html.
"""

from pathlib import Path

from platewheel import demo

checks = demo().changed(flange_angle_deg=50.0, min_curve_radius_m=6.0).check(quick=True)
print(checks.lines()[0])
for row in checks.failed:
    print(f"{row.id}: {row.value:.3g} {row.unit}, limit {row.limit:.3g}; {row.says}")

Path("checks.html").write_text(checks._repr_html_(), encoding="utf-8")
