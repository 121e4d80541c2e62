"""Zinc: ISO 1461 minima and the galvanizers' hole tables."""

from __future__ import annotations

import pytest

from platewheel.parts.checks.galvanizing.coating import least_zinc
from platewheel.parts.checks.galvanizing.vent_tables import table_hole_mm

ZINC_G_CM3 = 7.2  # nominal density of the coating, ISO 1461, 6.2


# EN ISO 1461 minima, not centrifuged: local / mean um, local / mean g/m2
@pytest.mark.parametrize(
    ("thickness", "minima"),
    [
        (8, (70, 85, 505, 610)),
        (6, (55, 70, 395, 505)),
        (3, (45, 55, 325, 395)),
        (1.5, (45, 55, 325, 395)),
        (1, (35, 45, 250, 325)),
    ],
)
def test_minima(thickness: float, minima: tuple[float, ...]) -> None:
    zinc = least_zinc(thickness)
    assert (zinc.local_um, zinc.mean_um, zinc.local_g_m2, zinc.mean_g_m2) == minima
    assert zinc.mean_g_m2 == pytest.approx(ZINC_G_CM3 * zinc.mean_um, rel=0.01)
    assert zinc.local_g_m2 == pytest.approx(ZINC_G_CM3 * zinc.local_um, rel=0.01)


# Galvanizer's hole-size table (mostostal.siedlce.pl): section side, holes at each end -> diameter
@pytest.mark.parametrize(
    ("side", "holes", "diameter"),
    [(80, 2, 16), (80, 1, 25), (80, 4, 12), (50, 2, 12), (100, 2, 25), (15, 1, 8), (500, 4, 150)],
)
def test_hole_table(side: float, holes: int, diameter: float) -> None:
    assert table_hole_mm(side, holes) == diameter


def test_between_rows_the_larger_section_rules() -> None:
    assert table_hole_mm(81, 2) == table_hole_mm(100, 2)
    assert table_hole_mm(80, 3) == table_hole_mm(80, 2)
    assert table_hole_mm(15, 2) == table_hole_mm(15, 1)  # two holes are not listed that small
    assert table_hole_mm(501, 2) is None
