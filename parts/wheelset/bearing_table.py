"""Rolling bearings by name: boundary dimensions and load ratings, and which fits a shaft or hub.

Boundary dimensions of deep groove bearings are those of ISO 15, of inserts those of ISO 9628 and
JIS B 1558, all from memory where no other source is named. Makers' ratings for one size differ by
15 to 20 percent; none here is above the lowest of those remembered or carried by the data set.
An insert's width is its inner ring's.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

_SHIGLEY = "Shigley, Mechanical Engineering Design, table 11-2, from memory"
_MEMORY = "makers' lists, from memory"
_EXTRACT = "a maker's catalogue extract"
_DATA = "a maker's list as carried by mechanical-components 0.3.4"
_INSERT = "JIS B 1558 sizes, from memory; ratings of the 62 bearing of the same outside"


@dataclass(frozen=True)
class Bearing:
    """One rolling bearing: bore, outside and width in mm, ratings C and C0 in kN."""

    name: str
    kind: Literal["deep-groove", "insert"]
    bore_mm: float
    outside_mm: float
    width_mm: float
    c_kn: float
    c0_kn: float
    source: str

    @property
    def series(self) -> str:
        """Dimension series as the name begins: 60, 62, 63; an insert's is 62."""
        return self.name[:2] if self.kind == "deep-groove" else "62"

    @property
    def lightest(self) -> bool:
        """Whether it is of diameter series 0."""
        return self.series == "60"

    @property
    def chamfer_mm(self) -> float:
        """Least chamfer of the rings: what a shoulder's fillet has to stay below."""
        return next(r for most, r in _CHAMFERS_MM[self.series] if self.bore_mm <= most)


Row = tuple[str, float, float, float, float, float, str]

_DEEP_GROOVE: tuple[Row, ...] = (
    ("6000", 10, 26, 8, 4.55, 1.96, _EXTRACT),
    ("6001", 12, 28, 8, 5.07, 2.36, _MEMORY),
    ("6002", 15, 32, 9, 5.59, 2.85, _MEMORY),
    ("6003", 17, 35, 10, 6.05, 3.25, _MEMORY),
    ("6004", 20, 42, 12, 9.36, 5, _MEMORY),
    ("6005", 25, 47, 12, 10.1, 5.85, _MEMORY),
    ("6006", 30, 55, 13, 13.2, 8, _DATA),
    ("6007", 35, 62, 14, 15.9, 10.2, _MEMORY),
    ("6008", 40, 68, 15, 16.8, 11.5, _MEMORY),
    ("6009", 45, 75, 16, 20.8, 14.4, _DATA),
    ("6010", 50, 80, 16, 21.6, 15.8, _DATA),
    ("6011", 55, 90, 18, 28.1, 21.2, _MEMORY),
    ("6012", 60, 95, 18, 29, 23.2, _MEMORY),
    ("6013", 65, 100, 18, 32.5, 25, _DATA),
    ("6014", 70, 110, 20, 40.5, 31, _DATA),
    ("6015", 75, 115, 20, 42, 33.5, _DATA),
    ("6016", 80, 125, 22, 51, 40, _DATA),
    ("6017", 85, 130, 22, 53, 43, _DATA),
    ("6018", 90, 140, 24, 62, 49.5, _DATA),
    ("6019", 95, 145, 24, 64, 54, _DATA),
    ("6020", 100, 150, 24, 64, 54, _DATA),
    ("6200", 10, 30, 9, 5.1, 2.39, _EXTRACT),
    ("6201", 12, 32, 10, 6.89, 3.1, _SHIGLEY),
    ("6202", 15, 35, 11, 7.8, 3.55, _SHIGLEY),
    ("6203", 17, 40, 12, 9.56, 4.5, _SHIGLEY),
    ("6204", 20, 47, 14, 12.7, 6.2, _SHIGLEY),
    ("6205", 25, 52, 15, 14, 6.95, _SHIGLEY),
    ("6206", 30, 62, 16, 19.5, 10, _SHIGLEY),
    ("6207", 35, 72, 17, 25.5, 13.7, _SHIGLEY),
    ("6208", 40, 80, 18, 30.7, 16.6, _SHIGLEY),
    ("6209", 45, 85, 19, 33, 18.6, _DATA),
    ("6210", 50, 90, 20, 35.1, 19.6, _SHIGLEY),
    ("6211", 55, 100, 21, 43.6, 25, _SHIGLEY),
    ("6212", 60, 110, 22, 47.5, 28, _SHIGLEY),
    ("6213", 65, 120, 23, 63, 41.5, _DATA),
    ("6214", 70, 125, 24, 66, 44, _DATA),
    ("6215", 75, 130, 25, 70, 49, _DATA),
    ("6216", 80, 140, 26, 77, 55, _DATA),
    ("6217", 85, 150, 28, 89, 64, _DATA),
    ("6218", 90, 160, 30, 102, 74, _DATA),
    ("6219", 95, 170, 32, 116, 82, _DATA),
    ("6220", 100, 180, 34, 130, 93, _DATA),
    ("6300", 10, 35, 11, 8.2, 3.45, _DATA),
    ("6301", 12, 37, 12, 9.75, 4.15, _MEMORY),
    ("6302", 15, 42, 13, 11.4, 5.3, _DATA),
    ("6303", 17, 47, 14, 13.5, 6.5, _DATA),
    ("6304", 20, 52, 15, 15.9, 7.8, _MEMORY),
    ("6305", 25, 62, 17, 21.2, 10.8, _MEMORY),
    ("6306", 30, 72, 19, 28.1, 15, _MEMORY),
    ("6307", 35, 80, 21, 33.2, 18, _MEMORY),
    ("6308", 40, 90, 23, 40.3, 22.4, _MEMORY),
    ("6309", 45, 100, 25, 52.7, 30, _MEMORY),
    ("6310", 50, 110, 27, 61.8, 36, _MEMORY),
    ("6311", 55, 120, 29, 71.5, 41.5, _MEMORY),
    ("6312", 60, 130, 31, 81.9, 48, _MEMORY),
    ("6313", 65, 140, 33, 100, 60, _DATA),
    ("6314", 70, 150, 35, 115, 69, _DATA),
    ("6315", 75, 160, 37, 123, 77, _DATA),
    ("6316", 80, 170, 39, 131, 87, _DATA),
    ("6317", 85, 180, 41, 141, 97, _DATA),
    ("6318", 90, 190, 43, 142, 102, _DATA),
    ("6319", 95, 200, 45, 154, 113, _DATA),
    ("6320", 100, 215, 47, 177, 137, _DATA),
)
_INSERTS: tuple[Row, ...] = (
    ("UC201", 12, 47, 31.0, 12.7, 6.2, _INSERT),
    ("UC202", 15, 47, 31.0, 12.7, 6.2, _INSERT),
    ("UC203", 17, 47, 31.0, 12.7, 6.2, _INSERT),
    ("UC204", 20, 47, 31.0, 12.7, 6.2, _INSERT),
    ("UC205", 25, 52, 34.1, 14, 6.95, _INSERT),
    ("UC206", 30, 62, 38.1, 19.5, 10, _INSERT),
    ("UC207", 35, 72, 42.9, 25.5, 13.7, _INSERT),
    ("UC208", 40, 80, 49.2, 30.7, 16.6, _INSERT),
    ("UC209", 45, 85, 49.2, 33, 18.6, _INSERT),
    ("UC210", 50, 90, 51.6, 35.1, 19.6, _INSERT),
    ("UC211", 55, 100, 55.6, 43.6, 25, _INSERT),
    ("UC212", 60, 110, 65.1, 47.5, 28, _INSERT),
    ("UC213", 65, 120, 65.1, 63, 41.5, _INSERT),
    ("UC214", 70, 125, 74.6, 66, 44, _INSERT),
    ("UC215", 75, 130, 77.8, 70, 49, _INSERT),
    ("UC216", 80, 140, 82.6, 77, 55, _INSERT),
    ("UC217", 85, 150, 85.7, 89, 64, _INSERT),
    ("UC218", 90, 160, 96.0, 102, 74, _INSERT),
)

# bore up to, least chamfer, mm; ISO 15 (chamfers of ISO 582), from memory
_CHAMFERS_MM = {
    "60": ((17, 0.3), (25, 0.6), (50, 1.0), (85, 1.1), (100, 1.5)),
    "62": ((17, 0.6), (30, 1.0), (50, 1.1), (75, 1.5), (90, 2.0), (100, 2.1)),
    "63": ((10, 0.6), (17, 1.0), (30, 1.1), (45, 1.5), (55, 2.0), (80, 2.1), (100, 3.0)),
}


def _bearings(kind: Literal["deep-groove", "insert"], rows: tuple[Row, ...]) -> Iterator[Bearing]:
    for name, bore, outside, width, c, c0, source in rows:
        yield Bearing(name, kind, float(bore), float(outside), float(width), c, c0, source)


BEARINGS: tuple[Bearing, ...] = (
    *_bearings("deep-groove", _DEEP_GROOVE),
    *_bearings("insert", _INSERTS),
)  # within a kind from the lightest series to the heaviest


def bearing_named(name: str) -> Bearing | None:
    """The bearing of this name, or None."""
    return next((one for one in BEARINGS if one.name == name.strip().upper()), None)


def bearings_by_bore(kind: str, bore_mm: float) -> tuple[Bearing, ...]:
    """All of a kind with exactly this bore, lightest series first."""
    return tuple(b for b in BEARINGS if b.kind == kind and abs(b.bore_mm - bore_mm) < 1e-6)


def bearings_by_outside(kind: str, outside_mm: float) -> tuple[Bearing, ...]:
    """All of a kind with exactly this outside diameter, lightest series first."""
    return tuple(b for b in BEARINGS if b.kind == kind and abs(b.outside_mm - outside_mm) < 1e-6)


def bores_mm(kind: str) -> tuple[float, ...]:
    """Every bore there is of a kind, rising."""
    return tuple(sorted({b.bore_mm for b in BEARINGS if b.kind == kind}))


def outsides_mm(kind: str) -> tuple[float, ...]:
    """Every outside diameter there is of a kind, rising."""
    return tuple(sorted({b.outside_mm for b in BEARINGS if b.kind == kind}))
