"""ISO 286 limits of size as two public packages have them: `python -m tests.bench.read_iso_286`.

In an environment of its own: `pip install --no-deps isofits==1.0 pressfit==0.1.0`, then run this
with that environment's Python. It prints the table of tests/published/test_iso_286_packages.py,
and where the two differ. isofits has each zone's limits as printed; pressfit makes them of grade
and fundamental deviation, and has the shafts pressed in.
"""

from __future__ import annotations

import ast
import importlib.util
from pathlib import Path

SHAFTS = ("k6", "h6", "h9", "f7", "p6", "s6")  # those that the fits of an axle use
HOLES = ("H7", "H8", "F8", "N7")
MOST_MM = 180


def printed() -> dict[str, dict[int, tuple[float, float]]]:
    """Zone -> size -> lower and upper deviation, um, of isofits."""
    found = importlib.util.find_spec("isofits")
    if found is None or found.origin is None:
        raise SystemExit("pip install --no-deps isofits==1.0 pressfit==0.1.0")
    text = (Path(found.origin).parent / "data.py").read_text(encoding="utf-8")
    zones: dict[str, dict[int, tuple[float, float]]] = {}
    for statement in ast.parse(text).body:
        if not isinstance(statement, ast.Assign):
            continue
        table = ast.literal_eval(statement.value)
        for zone in (*SHAFTS, *HOLES):
            for size, cell in zip(table["inc."], table.get(zone, []), strict=False):
                if int(size) <= MOST_MM:
                    upper, lower = cell.split("\n")
                    zones.setdefault(zone, {})[int(size)] = (float(lower), float(upper))
    return zones


def made(zone: str, size: int) -> tuple[float, float]:
    """Lower and upper deviation of a zone, um, of pressfit."""
    from pressfit import fit  # type: ignore[import-not-found]

    if zone[0].isupper():
        found = fit(f"{zone}/h6", size)
        return found.hole_ei_um, found.hole_es_um
    found = fit(f"H7/{zone}", size)
    return found.shaft_ei_um, found.shaft_es_um


def main() -> None:
    """Print every zone used, at the upper end of each range of size."""
    zones = printed()
    sizes = sorted(zones["k6"])
    for zone in (*SHAFTS, *HOLES):
        row = zones.get(zone, {})
        if zone in SHAFTS or zone[0] == "H":
            for size in sizes:
                other = made(zone, size)
                if row.setdefault(size, other) != other:
                    print(f"# {size} {zone}: isofits {row[size]}, pressfit {other}")
        told = ", ".join(f"({row[size][0]:g}, {row[size][1]:g})" for size in sizes)
        print(f'    "{zone}": ({told}),')
    print(f"SIZES_MM = {tuple(sizes)}")


if __name__ == "__main__":
    main()
