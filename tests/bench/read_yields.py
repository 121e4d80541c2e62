"""Strengths of structural steel as a public package has them: `python -m tests.bench.read_yields`.

In an environment of its own: `pip install --no-deps --ignore-requires-python
eurocodepy==2027.0.12`, then run this with that environment's Python. It prints the table of
tests/published/test_en_1993_strengths.py.
"""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path


def main() -> None:
    """Print fy and fu up to 40 mm, then over 40 up to 80 mm, N/mm2, of three grades."""
    found = importlib.util.find_spec("eurocodepy")
    if found is None or found.origin is None:
        raise SystemExit("pip install --no-deps --ignore-requires-python eurocodepy==2027.0.12")
    data = Path(found.origin).parent / "data" / "eurocodes.json"
    codes = json.loads(data.read_text(encoding="utf-8"))["Eurocodes"]
    for name in ("S235", "S275", "S355"):
        row = codes["Materials"]["Steel"]["Grade"][name]
        told = ", ".join(f"{row[key]:g}" for key in ("fyk", "fuk", "fyk40", "fuk40"))
        print(f'    "{name}": ({told}),')


if __name__ == "__main__":
    main()
