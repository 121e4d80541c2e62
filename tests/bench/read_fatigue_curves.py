"""S-N curves as a public package has them: `python -m tests.bench.read_fatigue_curves`.

In an environment of its own: `pip install openrainflow==1.0.0`, then run this with that
environment's Python. It prints the table of tests/published/test_fatigue_curves.py.
"""

from __future__ import annotations

CATEGORIES = (36, 63, 71, 90, 112)
RANGES_N_MM2 = (20, 30, 45, 60, 100, 160)


def main() -> None:
    """Print category, stress range and cycles to failure of EN 1993-1-9, figure 7.1."""
    from openrainflow import EurocodeCategory  # type: ignore[import-not-found]

    for category in CATEGORIES:
        curve = EurocodeCategory.get_curve(str(category))
        for stress in RANGES_N_MM2:
            cycles = float(curve.get_cycles_to_failure(float(stress)))
            print(f"    ({category}, {stress}, {cycles:.6g}),")


if __name__ == "__main__":
    main()
