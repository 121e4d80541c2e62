"""A job's report.json read by its schema: what to cut, what to buy, what was warned of.

python report_by_its_schema.py out/oyster-tramway/report.json
"""

import sys
from pathlib import Path

from platewheel import Report

if len(sys.argv) != 2:
    raise SystemExit(__doc__)
report = Report.model_validate_json(Path(sys.argv[1]).read_text(encoding="utf-8"))
print(f"{report.job.name}: {report.job.wheels} wheels of {report.wheel.mass_kg:.2f} kg, ", end="")
print(f"by platewheel {report.version}, schema {report.schema_version}")
for blank in report.blanks:
    print(f"  {blank.count:4} of {blank.name}, {blank.thickness_mm:g} mm, {blank.area_mm2:.0f} mm2")
for row in report.buying:
    price = "not priced" if row.price is None else f"{row.price:.2f} {report.cost.currency}"
    print(f"  {row.item}: {row.quantity:g} {row.unit}, {price}")
for check in report.checks:
    if check.verdict != "pass":
        print(f"  {check.verdict} {check.id}: {check.says}")
about = Report.model_json_schema()["$defs"]["NestingRow"]["properties"]["scrap_percent"]
print(f"scrap {report.nesting.scrap_percent:.1f} %: {about['description']}")
