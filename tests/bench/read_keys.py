"""Parallel keys as two public packages have them: `python -m tests.bench.read_keys`.

In an environment of its own, never the project's (one of them would bring another modelling
kernel): `pip install --no-deps bd-warehouse==0.4.0 melib==1.1.1`, then run this with that
environment's Python. It prints the tables of tests/published/test_parallel_keys.py.
"""

from __future__ import annotations

import ast
import csv
import importlib.util
from itertools import pairwise
from pathlib import Path


def _folder(package: str) -> Path:
    found = importlib.util.find_spec(package)
    if found is None or found.origin is None:
        raise SystemExit("pip install --no-deps bd-warehouse==0.4.0 melib==1.1.1")
    return Path(found.origin).parent


def main() -> None:
    """Print axle, width, height and depths in axle and hub; then width and height by range."""
    table = _folder("bd_warehouse") / "data" / "shaft_key_parameters.csv"
    with table.open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            keys = ("Size", "din6885:b", "din6885:h", "din6885:t4", "din6885:t2")
            print(f"    ({', '.join(row[key] for key in keys)}),")
    text = (_folder("melib") / "library.py").read_text(encoding="utf-8")
    ranges: dict[str, list[float]] = {}
    for function in ast.parse(text).body:
        if isinstance(function, ast.FunctionDef) and function.name == "keysize":
            for line in function.body:
                if isinstance(line, ast.Assign) and isinstance(line.value, ast.Call):
                    name = line.targets[0]
                    if isinstance(name, ast.Name) and name.id in ("D", "W", "H"):
                        ranges[name.id] = ast.literal_eval(line.value.args[0])
    for (over, to), width, height in zip(
        pairwise(ranges["D"]), ranges["W"][1:], ranges["H"][1:], strict=False
    ):
        print(f"    ({over}, {to}, {width}, {height}),")


if __name__ == "__main__":
    main()
