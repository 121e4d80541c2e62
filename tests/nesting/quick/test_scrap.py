"""Free spots of an uneven offcut beside distances that a polygon library measures."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.quick import scrap
from platewheel.nesting.quick.no_fit import NoFit, variants
from platewheel.nesting.quick.no_fit_polygon import SIDES
from platewheel.nesting.stock.layout import Sheet
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Point, polygon
from tests.bench.sizes import thin_c, wavy
from tests.nesting.plates import offcut

MARGIN, STEP = 7.0, 5.0
SHORT = MARGIN / np.cos(np.pi / SIDES) + 1e-3  # a round corner's margin is drawn with sides
PART = [(0.0, 0.0), (45.0, 0.0), (45.0, 12.0), (14.0, 12.0), (14.0, 30.0), (0.0, 30.0)]


def at_zero(points: list[Point]) -> list[Point]:
    """The same with its bounds at 0, 0."""
    low = np.min(points, axis=0)
    return [(float(x), float(y)) for x, y in np.asarray(points) - low]


def round_offcut(corners: int, arms: int, *holes: tuple[Point, ...]) -> Sheet:
    return offcut("rest", at_zero(wavy(corners, 120.0, arms)), holes)


def assert_true_to(sheet: Sheet, free: np.ndarray, part: Blank, turn: int) -> None:
    """Each spot told free keeps the margin, each that keeps it by a hair is told free."""
    (variant,) = (v for v in variants(part) if v.rotation_deg == turn)
    shape = shapely.affinity.rotate(shapely.Polygon(PART), turn, origin=(0, 0))
    ring = shapely.get_coordinates(shape) - np.array(variant.low) + MARGIN
    spots = np.stack(np.indices(free.shape), axis=-1).reshape(-1, 2) * STEP
    laid = shapely.polygons(ring[None] + spots[:, None])
    steel = shapely.Polygon(sheet.corners, sheet.holes)
    gaps = shapely.distance(laid, steel.boundary)
    gaps[~shapely.contains(steel, laid)] = -1.0
    told = free.ravel()
    assert (gaps[told] >= MARGIN - 1e-5).all()
    assert told[gaps > SHORT].all()
    assert 0 < told.sum() < told.size


@settings(max_examples=6, deadline=None, derandomize=True)
@given(st.integers(9, 60), st.integers(2, 9), st.sampled_from([0, 90, 180, 270]), st.booleans())
def test_spots_keep_the_margin_united_or_walked(
    corners: int, arms: int, turn: int, walked: bool
) -> None:
    sheet = round_offcut(corners, arms)
    part = Blank("part", "part", 6.0, polygon(PART))
    fits = NoFit(3.0, STEP)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(scrap, "FEW_SUMS", 0 if walked else 10**9)
        (variant,) = (v for v in variants(part) if v.rotation_deg == turn)
        free = fits.start_map(sheet, variant, MARGIN)
    assert free is not None
    assert_true_to(sheet, free, part, turn)


def test_a_bay_shut_in_by_the_margin_is_still_used() -> None:
    """In the middle of a thin C that is cut out: what is near to that has a hole."""
    slot = tuple((x + 126.0, y + 126.0) for x, y in thin_c(300, 70.0, 8.0))
    sheet = round_offcut(2000, 5, slot)
    part = Blank("part", "part", 6.0, polygon(PART))
    variant = variants(part)[0]
    free = NoFit(3.0, STEP).start_map(sheet, variant, MARGIN)
    assert free is not None
    assert_true_to(sheet, free, part, 0)
    middle = round((126.0 - 22.0 - MARGIN) / STEP), round((126.0 - 15.0 - MARGIN) / STEP)
    assert free[middle]


def test_an_offcut_is_looked_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The map is the same the second time, and what is taken from one is not missing in the next;
    of another margin it is another one."""
    sheet = round_offcut(500, 7)
    fits = NoFit(3.0, STEP)
    variant = variants(Blank("part", "part", 6.0, polygon(PART)))[0]
    first = fits.start_map(sheet, variant, MARGIN)
    assert first is not None
    kept = first.copy()
    first[:] = False
    wider = fits.start_map(sheet, variant, MARGIN + 9.0)
    monkeypatch.setattr(scrap.Scrap, "masks", never)
    again = fits.start_map(sheet, variant, MARGIN)
    assert again is not None
    assert wider is not None
    assert (again == kept).all()
    assert wider.sum() < kept.sum()


never: Callable[..., None] = pytest.fail
