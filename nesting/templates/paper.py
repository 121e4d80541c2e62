"""Paper for full-size templates: its size, and where on a page the drawing and the strips lie."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, ClassVar, Literal

from pydantic import Field

from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import Rule, Spec
from platewheel.parts.base.units import MM_PER_INCH, Units

Box = tuple[float, float, float, float]  # least x, least y, greatest x, greatest y
Orientation = Literal["portrait", "landscape"]
ORIENTATIONS: tuple[Orientation, Orientation] = ("portrait", "landscape")

# portrait, mm. Source: ISO 216 (A sizes); ASME Y14.1 sizes A and B, 8.5 x 11 and 11 x 17 inches
SIZES_MM = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "Letter": (8.5 * 25.4, 11 * 25.4),
    "Tabloid": (11 * 25.4, 17 * 25.4),
}
BAR_MM = 100.0  # length of the check bars
BARS_MM = {"mm": BAR_MM, "inch": 4 * MM_PER_INCH}  # a round length on the user's own rule
# a printer further off than this does more than fit a page: common practice, no source
LEAST_SCALE, MOST_SCALE = 0.9, 1.1

# Strips between margin and drawing. Left and top are cut off when pages are put together, so
# they hold hints only; what must stay readable is at the right and at the bottom.
LEFT_MM, TOP_MM, RIGHT_MM, BOTTOM_MM = 4.0, 4.0, 13.0, 31.0
LEAST_OVERLAP_MM = 8.0  # a registration cross needs arms of 3 mm to be laid by eye


@dataclass(frozen=True)
class Page:
    """One page as it lies: origin at its lower left corner, y up; mm."""

    width_mm: float
    height_mm: float
    margin_mm: float

    @property
    def orientation(self) -> Orientation:
        return "portrait" if self.width_mm <= self.height_mm else "landscape"

    @property
    def printable(self) -> Box:
        """The page less its margins."""
        margin = self.margin_mm
        return margin, margin, self.width_mm - margin, self.height_mm - margin

    @property
    def window(self) -> Box:
        """Where the drawing shows: the printable area less the strips."""
        left, bottom, right, top = self.printable
        return left + LEFT_MM, bottom + BOTTOM_MM, right - RIGHT_MM, top - TOP_MM

    @property
    def window_size_mm(self) -> tuple[float, float]:
        """Width and height of the drawing window."""
        left, bottom, right, top = self.window
        return right - left, top - bottom

    @property
    def across_bar(self) -> tuple[float, float]:
        """Left end of the check bar across the page, in the bottom strip."""
        left, bottom, _, _ = self.printable
        return left + 1.0, bottom + BOTTOM_MM - 4.0

    @property
    def upright_bar(self) -> tuple[float, float]:
        """Lower end of the check bar up the page, in the right strip."""
        _, bottom, right, top = self.window
        return right + 5.5, (bottom + top - BAR_MM) / 2


def _room(v: Any) -> Iterator[Fault]:
    # The short side is the tightest one, page upright or on its side: the bottom strip lies on it
    short = SIZES_MM[v.size][0]
    room = short - max(LEFT_MM + RIGHT_MM, TOP_MM + BOTTOM_MM) - BAR_MM
    most_margin, most_overlap = (room - LEAST_OVERLAP_MM) / 2, room - 2 * v.margin_mm
    why = f"leaves {BAR_MM:g} mm of new drawing a page, the length of the check bars, on {v.size}"
    if not v.margin_mm <= most_margin:
        yield Fault(
            "margin_mm",
            v.margin_mm,
            f"up to {most_margin:.4g} mm: that {why}",
            "margin_mm = 10, or a larger size",
        )
    elif not v.overlap_mm <= most_overlap:
        yield Fault(
            "overlap_mm",
            v.overlap_mm,
            f"up to {most_overlap:.4g} mm with margin_mm = {v.margin_mm:g}: that {why}",
            "overlap_mm = 15, a smaller margin_mm or a larger size",
        )


class Paper(Spec):
    """Pages that templates are printed on. Raises: SpecError naming every fault."""

    rules: ClassVar[tuple[Rule, ...]] = (_room,)

    size: Literal["A4", "A3", "Letter", "Tabloid"] = Field(
        "A4", description="paper in the printer (default: what an office printer takes)"
    )
    # From 3: no common printer reaches the edge, most stop 3 to 6 mm before it. Up to 40: for
    # plotters with wide grips. Default 10 is inside what any printer prints. Common practice,
    # no source.
    margin_mm: float = Field(
        10.0, ge=3, le=40, description="paper edge left white; more than your printer leaves"
    )
    # Default 15: wide enough to glue or tape, and to see a registration cross on both pages.
    # Common practice, no source.
    overlap_mm: float = Field(
        15.0, ge=LEAST_OVERLAP_MM, le=80, description="drawn twice, on both of two pages that meet"
    )

    units: Units = Field(
        "mm",
        description="of the lengths printed on paper; inch: to 1/64, millimetres beside; the "
        "cutting files stay in mm",
    )
    font: Literal["Libertinus Serif", "New Computer Modern"] = Field(
        "Libertinus Serif", description="of the papers (those that come with the typesetter)"
    )
    wrap_strips: bool = Field(
        True, description="paper strips to wrap round hub tube and tread pipe, to mark square cuts"
    )

    @property
    def bar_mm(self) -> float:
        """Length of the check bars: 100 mm, or 4 inches."""
        return BARS_MM[self.units]

    @property
    def width_mm(self) -> float:
        """Short side: the width of the upright page."""
        return SIZES_MM[self.size][0]

    @property
    def height_mm(self) -> float:
        """Long side: the height of the upright page."""
        return SIZES_MM[self.size][1]

    def page(self, orientation: Orientation, print_scale: float = 1.0) -> Page:
        """One page, upright or on its side, in millimetres as they come out of the printer.

        `print_scale` is what the printer makes of a length: measured bar / true bar. A printer
        that prints 0.98 makes 205.8 mm of the width of A4. One that enlarges pushes an edge off
        the sheet, nobody knows which: the margins take that in. Raises: SpecError for a scale
        outside 0.9 to 1.1, or one that leaves no room for the bars.
        """
        if not LEAST_SCALE <= print_scale <= MOST_SCALE:
            raise SpecError([_scale_fault(print_scale)])
        sides = (self.width_mm * print_scale, self.height_mm * print_scale)
        width, height = sides if orientation == "portrait" else sides[::-1]
        margin = self.margin_mm + max(0.0, print_scale - 1) * self.height_mm
        page = Page(width, height, margin)
        if print_scale != 1 and min(page.window_size_mm) - self.overlap_mm < BAR_MM:
            raise SpecError(
                [
                    Fault(
                        "--print-scale",
                        print_scale,
                        f"what leaves {BAR_MM:g} mm of new drawing a page with margin_mm = "
                        f"{self.margin_mm:g} and overlap_mm = {self.overlap_mm:g}",
                        "a smaller paper.margin_mm or paper.overlap_mm, or a larger paper.size",
                    )
                ]
            )
        return page


def _scale_fault(print_scale: float) -> Fault:
    return Fault(
        "--print-scale",
        print_scale,
        f"measured bar / true bar, from {LEAST_SCALE:g} to {MOST_SCALE:g}",
        "0.98 for a bar of 100 mm that measures 98 mm; further off: switch fit-to-page off "
        "and print again",
    )
