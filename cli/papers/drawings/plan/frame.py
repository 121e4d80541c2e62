"""Where a plate lies in its picture: millimetres of paper, y down from the upper left corner."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.nesting.stock.layout import Sheet
from platewheel.parts.geometry.outline import Arc, Circle, Loop, Point, Segment, segments

BESIDE_MM, AROUND_MM = 9.0, 2.0  # at the left and below, for the axes; at the right and above


@dataclass(frozen=True)
class Frame:
    """A plate at `scale` millimetres of paper to the millimetre of steel."""

    length_mm: float
    width_mm: float
    scale: float

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height of the picture."""
        room = BESIDE_MM + AROUND_MM
        return self.length_mm * self.scale + room, self.width_mm * self.scale + room

    def at(self, point: Point) -> Point:
        """A point of the plate on the paper."""
        x, y = point
        return BESIDE_MM + x * self.scale, self.size_mm[1] - BESIDE_MM - y * self.scale

    def back(self, place: Point) -> Point:
        """A place on the paper as a point of the plate."""
        x, y = place
        return (x - BESIDE_MM) / self.scale, (self.size_mm[1] - BESIDE_MM - y) / self.scale

    def path(self, loop: Loop, *, closed: bool = True) -> str:
        """A loop or a run of segments as the data of an SVG path, arcs true."""
        run = segments(loop)
        ends = "".join(self._step(one) for one in run)
        return f"M{self.xy(run[0].start)}{ends}{'Z' if closed else ''}"

    def xy(self, point: Point) -> str:
        """A point of the plate in the words of SVG."""
        x, y = self.at(point)
        return f"{x:.3f} {y:.3f}"

    def _step(self, segment: Segment) -> str:
        if not isinstance(segment, Arc):
            return f"L{self.xy(segment.end)}"
        if abs(segment.sweep_deg) > 359.9:  # one arc from a point to itself is drawn as nothing
            whole = segments(Circle(segment.centre, segment.radius_mm))
            return "".join(self._step(half) for half in whole)
        radius = segment.radius_mm * self.scale
        # SVG 1.1, 8.3.8: sweep flag 1 draws in the direction of growing angle, y downwards
        large, sweep = int(abs(segment.sweep_deg) > 180), int(segment.sweep_deg < 0)
        return f"A{radius:.3f} {radius:.3f} 0 {large} {sweep} {self.xy(segment.end)}"


def frame_in(sheet: Sheet, wide_mm: float, high_mm: float) -> Frame:
    """The plate as large as it goes into so much paper."""
    room = BESIDE_MM + AROUND_MM
    scale = min((wide_mm - room) / sheet.length_mm, (high_mm - room) / sheet.width_mm)
    return Frame(sheet.length_mm, sheet.width_mm, scale)
