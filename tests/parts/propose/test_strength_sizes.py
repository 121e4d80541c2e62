"""Wheels that share a stress analysis have the same metal."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from platewheel.parts.propose.choices import Ring
from platewheel.parts.propose.screening import first_wheels, widened
from platewheel.parts.propose.strength_sizes import SIZES, strength_sizes
from tests.parts.propose.test_sifting import SMALL
from tests.parts.settings import demo_setting


def test_rings_of_one_wall_but_other_stock_are_told_apart() -> None:
    """Walls of 8 mm are 7.5 of bar and 7 of pipe, 6 of sheet are 5.6; measured they are as told."""
    pipe = Ring("pipe", 60.0, 8.0, 280.0)
    choices = replace(SMALL, ring=(*SMALL.ring[:2], pipe))
    wheels = first_wheels(demo_setting().wheel, choices)
    for axis in ("flange", "disc"):
        wheels = widened(wheels, axis)
    ring = [choices.ring[at].source for at in wheels.places["ring"]]
    wall = SIZES.index("tread_thickness_mm")

    def walls(*tolerance: str) -> dict[str, float]:
        sizes = np.exp(strength_sizes(wheels, *tolerance))  # type: ignore[arg-type]
        return dict(zip(ring, sizes[:, wall].tolist(), strict=True))

    assert walls("by standard") == pytest.approx({"bar": 7.5, "sheet": 5.6, "pipe": 7.0})
    assert walls("nominal") == pytest.approx({"bar": 8, "sheet": 6, "pipe": 8})
    assert walls() == walls("nominal")
