"""The verifier tells every planted fault, and passes what the reference finds sound."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.nesting.stock.layout import Layout, NestingError, Placement, Sheet
from platewheel.nesting.verify.verify import TOLERANCE_MM, faults, verify
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.outline import Circle, contains, moved, moved_point
from tests.nesting.plates import disc, offcut, on_plate, plate, sector, steel, strip

SPACING, MARGIN = 6.0, 10.0
SHEET = plate(600.0, 400.0)
HAIR = 1e-3  # a hair under what is wanted; a hundred times the verifier's tolerance

HOLED = offcut(
    "holed",
    [(0.0, 0.0), (600.0, 0.0), (600.0, 200.0), (300.0, 200.0), (300.0, 400.0), (0.0, 400.0)],
    (((100.0, 100.0), (200.0, 100.0), (200.0, 150.0), (100.0, 150.0)),),
)
RING = disc(200.0, "ring", (Circle((0.0, 0.0), 60.0),))


def laid(*placed: tuple[Blank, float, float, float], sheet: Sheet = SHEET) -> Layout:
    return Layout(sheet, tuple(Placement(*one) for one in placed))


def told(layout: Layout) -> str:
    return "; ".join(faults(layout, SPACING, MARGIN))


def test_parts_just_at_spacing_and_margin_are_sound() -> None:
    """Two discs, a strip along the edge and a disc in a sector's mouth, all exactly at limits."""
    layout = laid(
        (disc(100.0), 60.0, 60.0, 0.0),
        (disc(100.0), 166.0, 60.0, 0.0),
        (strip(580.0, 40.0), 10.0, 350.0, 0.0),
        (sector(70.0, 90.0, 300.0), 400.0, 200.0, 30.0),
        (disc(128.0, "small"), 400.0, 200.0, 0.0),
    )
    assert told(layout) == ""
    verify(layout, SPACING, MARGIN)


@pytest.mark.parametrize(
    ("layout", "says"),
    [
        pytest.param(
            laid((disc(100.0), 100.0, 100.0, 0.0), (disc(100.0, "two"), 150.0, 100.0, 0.0)),
            "two at (150, 100) and disc at (100, 100) overlap",
            id="overlap",
        ),
        pytest.param(
            laid((disc(100.0), 100.0, 100.0, 0.0), (disc(100.0), 206.0 - HAIR, 100.0, 0.0)),
            "5.9990 mm apart, 6 mm wanted",
            id="gap of two discs a hair small",
        ),
        pytest.param(
            laid((strip(100.0, 40.0), 10.0, 10.0, 0.0), (strip(100.0, 40.0), 10.0, 56 - HAIR, 0.0)),
            "5.9990 mm apart",
            id="gap of two strips a hair small",
        ),
        pytest.param(
            laid((disc(100.0), 60.0 - HAIR, 100.0, 0.0)),
            "9.9990 mm from the plate's edge, 10 wanted",
            id="margin left",
        ),
        pytest.param(
            laid((disc(100.0), 100.0, 340.0 + HAIR, 0.0)),
            "9.9990 mm from the plate's edge",
            id="margin top",
        ),
        pytest.param(
            laid((sector(70.0, 90.0, 120.0), 100.0 - HAIR, 100.0, 90.0)),
            "9.9990 mm from the plate's edge",
            id="margin at the crown of an arc",
        ),
        pytest.param(laid((disc(100.0), 800.0, 100.0, 0.0)), "off the plate", id="off the plate"),
        pytest.param(
            laid((disc(100.0), 600.0, 100.0, 0.0)), "0.0000 mm from the plate's edge", id="on edge"
        ),
        pytest.param(
            laid((disc(300.0), 200.0, 200.0, 0.0), (disc(50.0, "in"), 200.0, 200.0, 0.0)),
            "in at (200, 200) and disc at (200, 200) overlap",
            id="wholly inside another",
        ),
        pytest.param(
            laid((disc(50.0, "in"), 200.0, 200.0, 0.0), (disc(300.0), 200.0, 200.0, 0.0)),
            "overlap",
            id="wholly inside another, told first",
        ),
        pytest.param(
            laid((strip(100.0, 40.0), 50.0, 50.0, 0.0), (strip(100.0, 40.0), 50.0, 50.0, 0.0)),
            "overlap",
            id="twice in one place",
        ),
        pytest.param(
            laid((strip(100.0, 40.0), 50.0, 50.0, 0.0), (strip(100.0, 40.0), 150.0, 50.0, 0.0)),
            "overlap",
            id="edges shared",
        ),
        pytest.param(
            laid((disc(30.0), 150.0, 125.0, 0.0), sheet=HOLED),
            "off the plate",
            id="in the hole of an offcut",
        ),
        pytest.param(
            laid((disc(190.0), 150.0, 125.0, 0.0), sheet=HOLED),
            "off the plate",
            id="round the hole of an offcut",
        ),
        pytest.param(
            laid((strip(80.0, 30.0), 100.0, 160.0 - HAIR, 0.0), sheet=HOLED),
            "9.9990 mm from the plate's edge",
            id="too near the hole of an offcut",
        ),
        pytest.param(
            laid((disc(50.0), 450.0, 300.0, 0.0), sheet=HOLED),
            "off the plate",
            id="in the notch of an offcut",
        ),
        pytest.param(
            laid((RING, 200.0, 200.0, 0.0), (disc(108.0 + 2 * HAIR), 200.0, 200.0, 0.0)),
            "5.9990 mm apart",
            id="in a hole, a hair too near",
        ),
        pytest.param(
            laid((RING, 200.0, 200.0, 0.0), (disc(40.0), 260.0, 200.0, 0.0)),
            "overlap",
            id="across the edge of a hole",
        ),
        pytest.param(
            laid((RING, 200.0, 200.0, 0.0), (disc(20.0), 280.0, 200.0, 0.0)),
            "overlap",
            id="beside the hole, in the material",
        ),
        pytest.param(
            laid((RING, 200.0, 200.0, 0.0), (disc(150.0), 200.0, 200.0, 0.0)),
            "overlap",
            id="round the hole, in the material",
        ),
    ],
)
def test_planted_fault_is_told(layout: Layout, says: str) -> None:
    assert says in told(layout)
    with pytest.raises(NestingError, match=r"is not sound"):
        verify(layout, SPACING, MARGIN)


def test_a_part_may_lie_in_the_hole_of_another_at_the_spacing() -> None:
    layout = laid((RING, 200.0, 200.0, 0.0), (disc(108.0), 200.0, 200.0, 0.0))
    assert told(layout) == ""
    assert told(Layout(SHEET, layout.placements[::-1])) == ""


def test_the_sound_side_of_every_notch_and_hole_is_accepted() -> None:
    layout = laid(
        (strip(80.0, 30.0), 100.0, 160.0, 0.0),
        (disc(180.0), 500.0, 100.0, 0.0),
        (strip(100.0, 180.0), 190.0, 210.0, 0.0),
        sheet=HOLED,
    )
    assert told(layout) == ""


def test_every_fault_is_told_at_once() -> None:
    layout = laid(
        (disc(100.0, "a"), 55.0, 100.0, 0.0),
        (disc(100.0, "b"), 158.0, 100.0, 0.0),
        (disc(100.0, "c"), 700.0, 100.0, 0.0),
    )
    with pytest.raises(NestingError) as caught:
        verify(layout, SPACING, MARGIN)
    assert str(caught.value).count(";") == 2
    assert all(name in str(caught.value) for name in ("a at (55", "b at (158", "c at (700"))


def test_rounding_of_positions_is_no_fault() -> None:
    """Positions are rounded to 1e-6 mm."""
    close = laid((disc(100.0), 60.0, 60.0, 0.0), (disc(100.0), 166.0 - 1e-6, 60.0, 0.0))
    assert told(close) == ""
    assert TOLERANCE_MM < HAIR / 10  # else the cases above prove nothing


@pytest.mark.parametrize("turn", range(0, 360, 30))
def test_hollow_of_a_half_ring_is_outside_it_on_the_line_of_its_ends_too(turn: int) -> None:
    """The verifier asks on which side one point lies: never in doubt on the chord of an arc."""
    half = moved(sector(60.0, 75.0, 180.0).outline, 300.0, 200.0, turn)
    for r in (-50.0, -40.0, -20.0, 10.0, 20.0, 30.0, 40.0, 50.0):
        assert not contains(half, moved_point((r, 0.0), 300.0, 200.0, turn))
    for r in (-80.0, 80.0):
        assert not contains(half, moved_point((r, 0.0), 300.0, 200.0, turn))
    assert contains(half, moved_point((0.0, 67.0), 300.0, 200.0, turn))


BLANKS = [
    disc(60.0),
    RING,
    strip(150.0, 30.0),
    sector(50.0, 70.0, 120.0),
    sector(60.0, 75.0, 330.0, "cone"),
]
places = st.tuples(
    st.sampled_from(BLANKS),
    st.floats(60, 540),
    st.floats(60, 340),
    st.integers(0, 11).map(lambda n: 30.0 * n),
)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(places, min_size=2, max_size=3), st.sampled_from([SHEET, HOLED]))
def test_verdict_is_that_of_the_reference(
    placed: list[tuple[Blank, float, float, float]], sheet: Sheet
) -> None:
    """Parts thrown on a plate: sound or not by true arcs just as by a polygon library."""
    layout = laid(*placed, sheet=sheet)
    shapes, whole = [on_plate(p) for p in layout.placements], steel(sheet)
    over = [MARGIN - whole.boundary.distance(s) if whole.contains(s) else 1.0 for s in shapes]
    over += [SPACING - a.distance(b) for i, a in enumerate(shapes) for b in shapes[:i]]
    if abs(max(over)) > 2e-3:  # else within the facets of the reference
        assert (told(layout) == "") == (max(over) < 0)


def test_a_part_with_its_first_corner_on_the_plate_and_the_rest_off_it_is_told() -> None:
    assert "lies off the plate" in told(laid((strip(200.0, 40.0), 500.0, 200.0, 0.0)))
