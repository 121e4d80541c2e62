"""Ratings of bearings as a public data set has them: `python -m tests.bench.read_bearings`.

In an environment of its own: `pip install --no-deps mechanical-components==0.3.4`, then run this
with that environment's Python. It prints the table of tests/published/test_bearing_ratings.py.
"""

from __future__ import annotations

import importlib.util
import json
import re
from pathlib import Path


def main() -> None:
    """Print name, C and C0 (kN) of every 60, 62 and 63 bearing up to 100 mm bore."""
    found = importlib.util.find_spec("mechanical_components")
    if found is None or found.origin is None:
        raise SystemExit("pip install --no-deps mechanical-components==0.3.4")
    catalogs = Path(found.origin).parent / "catalogs"
    lowest: dict[str, tuple[float, float]] = {}
    for file in sorted(catalogs.glob("*.json")):
        for row in json.loads(file.read_text(encoding="utf-8")).get("bearings", []):
            name = str(row.get("name", ""))
            if re.fullmatch(r"(60|62|63)\d\d", name) and row["d"] <= 0.1 + 1e-9:
                c, c0 = row["Cr"] / 1000, row["C0r"] / 1000
                had = lowest.get(name, (c, c0))
                lowest[name] = (min(c, had[0]), min(c0, had[1]))
    for name, (c, c0) in sorted(lowest.items()):
        print(f'    "{name}": ({c:g}, {c0:g}),')


if __name__ == "__main__":
    main()
