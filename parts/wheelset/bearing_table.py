"""Rolling bearings by name: boundary dimensions and load ratings, and which fits a shaft or hub.

Boundary dimensions of deep groove bearings are those of ISO 15, of inserts those of ISO 9628 and
JIS B 1558, all from memory where no other source is named. Makers' ratings for one size differ by
15 to 20 percent; none here is above the lowest of those remembered or carried by the data set,
open, shielded or sealed. A row's source is that of its C; its C0 is the lowest known, of any of
the sources. An insert's width is its inner ring's.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

_SHIGLEY = "Shigley, Mechanical Engineering Design, table 11-2, from memory"
_MEMORY = "makers' lists, from memory"
_EXTRACT = "a maker's catalogue extract"
_DATA = "the lowest of makers' lists as carried by mechanical-components 0.3.4"
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
    ("6000", 10, 26, 8, 4.45, 1.96, _DATA),
    ("6001", 12, 28, 8, 5, 2.36, _DATA),
    ("6002", 15, 32, 9, 5.4, 2.84, _DATA),
    ("6003", 17, 35, 10, 5.8, 3.25, _DATA),
    ("6004", 20, 42, 12, 9.2, 5, _DATA),
    ("6005", 25, 47, 12, 9.8, 5.8, _DATA),
    ("6006", 30, 55, 13, 13, 8, _DATA),
    ("6007", 35, 62, 14, 15.5, 10.2, _DATA),
    ("6008", 40, 68, 15, 16.4, 11.5, _DATA),
    ("6009", 45, 75, 16, 20.5, 14.4, _DATA),
    ("6010", 50, 80, 16, 21.1, 15.8, _DATA),
    ("6011", 55, 90, 18, 27.5, 21.2, _DATA),
    ("6012", 60, 95, 18, 28.6, 23.2, _DATA),
    ("6013", 65, 100, 18, 29.6, 25, _DATA),
    ("6014", 70, 110, 20, 37, 30.5, _DATA),
    ("6015", 75, 115, 20, 38.4, 33.5, _DATA),
    ("6016", 80, 125, 22, 46.2, 39.8, _DATA),
    ("6017", 85, 130, 22, 48.9, 43, _DATA),
    ("6018", 90, 140, 24, 56.4, 49.5, _DATA),
    ("6019", 95, 145, 24, 59.4, 54, _DATA),  # listed 59.6, above the larger 6020
    ("6020", 100, 150, 24, 59.4, 54, _DATA),
    ("6200", 10, 30, 9, 5.1, 2.39, _EXTRACT),
    ("6201", 12, 32, 10, 6.75, 2.75, _DATA),
    ("6202", 15, 35, 11, 7.6, 3.55, _DATA),
    ("6203", 17, 40, 12, 9.4, 4.5, _DATA),
    ("6204", 20, 47, 14, 12.6, 6.2, _DATA),
    ("6205", 25, 52, 15, 13.8, 6.95, _DATA),
    ("6206", 30, 62, 16, 19.2, 10, _DATA),
    ("6207", 35, 72, 17, 25.3, 13.7, _DATA),
    ("6208", 40, 80, 18, 28.7, 16.6, _DATA),
    ("6209", 45, 85, 19, 31.2, 18.6, _DATA),
    ("6210", 50, 90, 20, 34.4, 19.6, _DATA),
    ("6211", 55, 100, 21, 42.6, 25, _DATA),
    ("6212", 60, 110, 22, 47.5, 28, _SHIGLEY),
    ("6213", 65, 120, 23, 56.1, 40, _DATA),
    ("6214", 70, 125, 24, 59.7, 44, _DATA),
    ("6215", 75, 130, 25, 64.8, 48.3, _DATA),
    ("6216", 80, 140, 26, 72.1, 53, _DATA),
    ("6217", 85, 150, 28, 83.6, 62, _DATA),
    ("6218", 90, 160, 30, 95.3, 71.5, _DATA),
    ("6219", 95, 170, 32, 108, 81.9, _DATA),
    ("6220", 100, 180, 34, 121, 93, _DATA),
    ("6300", 10, 35, 11, 7.6, 3.45, _DATA),
    ("6301", 12, 37, 12, 9.7, 4.15, _DATA),
    ("6302", 15, 42, 13, 11.2, 5.3, _DATA),
    ("6303", 17, 47, 14, 13.5, 6.5, _DATA),
    ("6304", 20, 52, 15, 15.8, 7.8, _DATA),
    ("6305", 25, 62, 17, 21.2, 10.8, _MEMORY),
    ("6306", 30, 72, 19, 26.7, 15, _DATA),
    ("6307", 35, 80, 21, 33, 18, _DATA),
    ("6308", 40, 90, 23, 40.3, 22.4, _MEMORY),
    ("6309", 45, 100, 25, 52.3, 30, _DATA),
    ("6310", 50, 110, 27, 61.3, 36, _DATA),
    ("6311", 55, 120, 29, 70.7, 41.5, _DATA),
    ("6312", 60, 130, 31, 81, 48, _DATA),
    ("6313", 65, 140, 33, 91.7, 59.8, _DATA),
    ("6314", 70, 150, 35, 103, 68, _DATA),
    ("6315", 75, 160, 37, 113, 77, _DATA),
    ("6316", 80, 170, 39, 122, 86.5, _DATA),
    ("6317", 85, 180, 41, 132, 96.8, _DATA),
    ("6318", 90, 190, 43, 142, 102, _DATA),
    ("6319", 95, 200, 45, 151, 113, _DATA),
    ("6320", 100, 215, 47, 172, 137, _DATA),
)
_INSERTS: tuple[Row, ...] = (
    ("UC201", 12, 47, 31.0, 12.6, 6.2, _INSERT),
    ("UC202", 15, 47, 31.0, 12.6, 6.2, _INSERT),
    ("UC203", 17, 47, 31.0, 12.6, 6.2, _INSERT),
    ("UC204", 20, 47, 31.0, 12.6, 6.2, _INSERT),
    ("UC205", 25, 52, 34.1, 13.8, 6.95, _INSERT),
    ("UC206", 30, 62, 38.1, 19.2, 10, _INSERT),
    ("UC207", 35, 72, 42.9, 25.3, 13.7, _INSERT),
    ("UC208", 40, 80, 49.2, 28.7, 16.6, _INSERT),
    ("UC209", 45, 85, 49.2, 31.2, 18.6, _INSERT),
    ("UC210", 50, 90, 51.6, 34.4, 19.6, _INSERT),
    ("UC211", 55, 100, 55.6, 42.6, 25, _INSERT),
    ("UC212", 60, 110, 65.1, 47.5, 28, _INSERT),
    ("UC213", 65, 120, 65.1, 56.1, 40, _INSERT),
    ("UC214", 70, 125, 74.6, 59.7, 44, _INSERT),
    ("UC215", 75, 130, 77.8, 64.8, 48.3, _INSERT),
    ("UC216", 80, 140, 82.6, 72.1, 53, _INSERT),
    ("UC217", 85, 150, 85.7, 83.6, 62, _INSERT),
    ("UC218", 90, 160, 96.0, 95.3, 71.5, _INSERT),
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
