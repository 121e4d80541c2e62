"""Tubes that shops stock, and which of them to buy for a tube of another size.

Outside diameters and walls: EN 10220:2002, table 1 (seamless and welded tubes, the sizes of
EN 10210-2 and EN 10216), series 1 to 3; EN 10305-1:2016, table 3 (precision tubes, drawn).
Both from memory. A row of these tables ends at some wall; no wall above a quarter of the diameter
is taken to be stocked: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

_NEAR_MM = 0.005
MOST_WALL = 0.25  # of the outside diameter

EN_10220_OUTSIDE = (
    *(10.2, 13.5, 17.2, 21.3, 26.9, 33.7, 42.4, 48.3, 60.3, 76.1, 88.9, 114.3, 139.7, 168.3),
    *(219.1, 273.0, 323.9, 355.6, 406.4, 457.0, 508.0, 610.0, 711.0, 813.0, 914.0, 1016.0),
    *(12.0, 12.7, 16.0, 19.0, 20.0, 25.0, 31.8, 32.0, 38.0, 40.0, 51.0, 57.0, 63.5, 70.0),
    *(101.6, 127.0, 133.0, 762.0),
    *(14.0, 18.0, 22.0, 25.4, 30.0, 35.0, 44.5, 54.0, 73.0, 82.5, 108.0, 141.3, 152.4, 159.0),
    *(177.8, 193.7, 244.5, 559.0, 660.0, 864.0),
)
EN_10220_WALL = (
    *(0.5, 0.6, 0.8, 1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.3, 2.6, 2.9, 3.2, 3.6, 4.0, 4.5, 5.0, 5.4),
    *(5.6, 6.3, 7.1, 8.0, 8.8, 10.0, 11.0, 12.5, 14.2, 16.0, 17.5, 20.0, 22.2, 25.0, 28.0, 30.0),
    *(32.0, 36.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0),
)
EN_10305_OUTSIDE = (
    *(4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 15.0, 16.0, 18.0, 20.0, 22.0, 25.0, 26.0),
    *(28.0, 30.0, 32.0, 35.0, 38.0, 40.0, 42.0, 45.0, 48.0, 50.0, 55.0, 60.0, 65.0, 70.0, 75.0),
    *(80.0, 85.0, 90.0, 95.0, 100.0, 110.0, 120.0, 130.0, 140.0, 150.0, 160.0, 170.0, 180.0),
    *(190.0, 200.0, 220.0, 240.0, 260.0),
)
EN_10305_WALL = (
    *(0.5, 0.8, 1.0, 1.2, 1.5, 1.8, 2.0, 2.2, 2.5, 2.8, 3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 7.0),
    *(8.0, 9.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 22.0, 25.0),
)
TABLES = (
    ("EN 10220", EN_10220_OUTSIDE, EN_10220_WALL),
    ("EN 10305-1", EN_10305_OUTSIDE, EN_10305_WALL),
)


@dataclass(frozen=True)
class StockPipe:
    """A tube of a table: outside diameter and wall, mm, and the table."""

    outside_mm: float
    wall_mm: float
    standard: str

    @property
    def bore_mm(self) -> float:
        return self.outside_mm - 2 * self.wall_mm


def stock_pipe(outside_mm: float, bore_mm: float) -> StockPipe | None:
    """The tube to buy: this size where a table has it, else the one with least to be turned off
    its outside and bored out of it; None where none is thick enough.

    Raises: ValueError where the bore is not between 0 and the outside.
    """
    if not 0 < bore_mm < outside_mm:
        raise ValueError(f"bore_mm: found {bore_mm:g}; allowed: above 0, below {outside_mm:g}")
    holding = (
        one
        for one in _tables()
        if one.outside_mm >= outside_mm - _NEAR_MM and one.bore_mm <= bore_mm + _NEAR_MM
    )
    return min(holding, key=lambda one: one.outside_mm**2 - one.bore_mm**2, default=None)


def _tables() -> Iterator[StockPipe]:
    for standard, outsides, walls in TABLES:
        for outside in outsides:
            for wall in walls:
                if wall <= MOST_WALL * outside:
                    yield StockPipe(outside, wall, standard)
