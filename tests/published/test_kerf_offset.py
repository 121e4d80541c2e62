"""Facts of kerf and offset.

Source: plain geometry, and training material on plasma cutting: the torch runs half a kerf
outside the line; a 2 in square cut on its line with a kerf of 0.05 in comes out at 1.95 in.
An inch is 25.4 mm (ISO 31-1).
"""

from __future__ import annotations

import pytest

from platewheel.nesting.cutting.kerf import torch_path
from platewheel.parts.geometry.outline import Circle, bounds, polygon

INCH = 25.4
KERF = 0.05 * INCH


def square(side_mm: float) -> tuple:
    return polygon([(0.0, 0.0), (side_mm, 0.0), (side_mm, side_mm), (0.0, side_mm)])


def test_torch_path_of_a_two_inch_square() -> None:
    """The path runs on a square of 2.05 in: half a kerf outside on each side."""
    x0, y0, x1, y1 = bounds(torch_path(square(2 * INCH), KERF, hole=False))
    assert (x0, y0) == pytest.approx((-KERF / 2, -KERF / 2))
    assert (x1 - x0, y1 - y0) == pytest.approx((2.05 * INCH, 2.05 * INCH))


def test_square_cut_on_its_line_is_one_kerf_small() -> None:
    """Turned round: the part whose torch path is 2 in across measures 1.95 in."""
    x0, _, x1, _ = bounds(torch_path(square(1.95 * INCH), KERF, hole=False))
    assert x1 - x0 == pytest.approx(2 * INCH)


def test_hole_cut_on_its_line_is_one_kerf_large() -> None:
    """The same of a hole: to be 2 in, its path is a circle of 1.95 in."""
    path = torch_path(Circle((0.0, 0.0), INCH), KERF, hole=True)
    assert isinstance(path, Circle)
    assert 2 * path.radius_mm == pytest.approx(1.95 * INCH)
