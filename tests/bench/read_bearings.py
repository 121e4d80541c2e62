"""Bearings as a public data set has them: `python -m tests.bench.read_bearings`.

In an environment of its own: `pip install --no-deps mechanical-components==0.3.4`, then run this
with that environment's Python. It prints the table of tests/published/test_bearing_ratings.py: of
all lists in the package, and of open, shielded and sealed bearings, the lowest ratings.
"""

from __future__ import annotations

import importlib.util
import json
import re
from pathlib import Path


def main() -> None:
    """Print name, outside, width (mm), C and C0 (kN) of every 60, 62, 63 bearing up to 100 mm."""
    found = importlib.util.find_spec("mechanical_components")
    if found is None or found.origin is None:
        raise SystemExit("pip install --no-deps mechanical-components==0.3.4")
    catalogs = Path(found.origin).parent / "catalogs"
    lowest: dict[str, tuple[float, float, float, float]] = {}
    for file in sorted(catalogs.glob("*.json")):
        for row in json.loads(file.read_text(encoding="utf-8")).get("bearings", []):
            name = re.match(r"(?:60|62|63)\d\d(?!\d)", str(row.get("name", "")))
            ball = str(row.get("object_class", "")).endswith(".RadialBallBearing")
            if not (name and ball and row["d"] <= 0.1 + 1e-9):
                continue
            outside, width = round(1000 * row["D"], 3), round(1000 * row["B"], 3)
            c, c0 = row["Cr"] / 1000, row["C0r"] / 1000
            had = lowest.get(name[0], (outside, width, c, c0))
            if had[:2] != (outside, width):
                raise SystemExit(f"{name[0]}: {had[:2]} and {(outside, width)} in the lists")
            lowest[name[0]] = (outside, width, min(c, had[2]), min(c0, had[3]))
    for key, values in sorted(lowest.items()):
        print(f'    "{key}": ({", ".join(f"{value:g}" for value in values)}),')


if __name__ == "__main__":
    main()
