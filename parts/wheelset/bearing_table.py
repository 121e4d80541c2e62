"""Rolling bearings by name: boundary dimensions and load ratings, and which fits a shaft or hub.

Boundary dimensions of deep groove bearings are those of ISO 15, of inserts those of ISO 9628 and
JIS B 1558, all from memory where no other source is named. Makers' ratings for one size differ by
15 to 20 percent; the lower of those remembered is taken. An insert's width is its inner ring's.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

_SHIGLEY = "Shigley, Mechanical Engineering Design, table 11-2, from memory"
_MEMORY = "makers' lists, from memory"
_EXTRACT = "a maker's catalogue extract"
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
    ("6004", 20, 42, 12, 9.36, 5.00, _MEMORY),
    ("6005", 25, 47, 12, 10.1, 5.85, _MEMORY),
    ("6006", 30, 55, 13, 13.2, 8.30, _MEMORY),
    ("6007", 35, 62, 14, 15.9, 10.2, _MEMORY),
    ("6008", 40, 68, 15, 16.8, 11.5, _MEMORY),
    ("6009", 45, 75, 16, 20.8, 14.6, _MEMORY),
    ("6010", 50, 80, 16, 21.6, 16.0, _MEMORY),
    ("6011", 55, 90, 18, 28.1, 21.2, _MEMORY),
    ("6012", 60, 95, 18, 29.0, 23.2, _MEMORY),
    ("6200", 10, 30, 9, 5.10, 2.39, _EXTRACT),
    ("6201", 12, 32, 10, 6.89, 3.10, _SHIGLEY),
    ("6202", 15, 35, 11, 7.80, 3.55, _SHIGLEY),
    ("6203", 17, 40, 12, 9.56, 4.50, _SHIGLEY),
    ("6204", 20, 47, 14, 12.7, 6.20, _SHIGLEY),
    ("6205", 25, 52, 15, 14.0, 6.95, _SHIGLEY),
    ("6206", 30, 62, 16, 19.5, 10.0, _SHIGLEY),
    ("6207", 35, 72, 17, 25.5, 13.7, _SHIGLEY),
    ("6208", 40, 80, 18, 30.7, 16.6, _SHIGLEY),
    ("6209", 45, 85, 19, 33.2, 18.6, _SHIGLEY),
    ("6210", 50, 90, 20, 35.1, 19.6, _SHIGLEY),
    ("6211", 55, 100, 21, 43.6, 25.0, _SHIGLEY),
    ("6212", 60, 110, 22, 47.5, 28.0, _SHIGLEY),
    ("6300", 10, 35, 11, 8.20, 3.50, _EXTRACT),
    ("6301", 12, 37, 12, 9.75, 4.15, _MEMORY),
    ("6302", 15, 42, 13, 11.4, 5.40, _MEMORY),
    ("6303", 17, 47, 14, 13.5, 6.55, _MEMORY),
    ("6304", 20, 52, 15, 15.9, 7.80, _MEMORY),
    ("6305", 25, 62, 17, 21.2, 10.8, _MEMORY),
    ("6306", 30, 72, 19, 28.1, 15.0, _MEMORY),
    ("6307", 35, 80, 21, 33.2, 18.0, _MEMORY),
    ("6308", 40, 90, 23, 40.3, 22.4, _MEMORY),
    ("6309", 45, 100, 25, 52.7, 30.0, _MEMORY),
    ("6310", 50, 110, 27, 61.8, 36.0, _MEMORY),
    ("6311", 55, 120, 29, 71.5, 41.5, _MEMORY),
    ("6312", 60, 130, 31, 81.9, 48.0, _MEMORY),
)
_INSERTS: tuple[Row, ...] = (
    ("UC201", 12, 47, 31.0, 12.7, 6.20, _INSERT),
    ("UC202", 15, 47, 31.0, 12.7, 6.20, _INSERT),
    ("UC203", 17, 47, 31.0, 12.7, 6.20, _INSERT),
    ("UC204", 20, 47, 31.0, 12.7, 6.20, _INSERT),
    ("UC205", 25, 52, 34.1, 14.0, 6.95, _INSERT),
    ("UC206", 30, 62, 38.1, 19.5, 10.0, _INSERT),
    ("UC207", 35, 72, 42.9, 25.5, 13.7, _INSERT),
    ("UC208", 40, 80, 49.2, 30.7, 16.6, _INSERT),
    ("UC209", 45, 85, 49.2, 33.2, 18.6, _INSERT),
    ("UC210", 50, 90, 51.6, 35.1, 19.6, _INSERT),
    ("UC211", 55, 100, 55.6, 43.6, 25.0, _INSERT),
    ("UC212", 60, 110, 65.1, 47.5, 28.0, _INSERT),
)

# bore up to, least chamfer, mm; ISO 15 (chamfers of ISO 582), from memory
_CHAMFERS_MM = {
    "60": ((17, 0.3), (25, 0.6), (50, 1.0), (60, 1.1)),
    "62": ((17, 0.6), (30, 1.0), (50, 1.1), (60, 1.5)),
    "63": ((10, 0.6), (17, 1.0), (30, 1.1), (45, 1.5), (55, 2.0), (60, 2.1)),
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
