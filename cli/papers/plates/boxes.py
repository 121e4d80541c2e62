"""Where things stand on a plate's page: picture and table above, legend, words, ticks below."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from platewheel.cli.papers.drawings.plan.frame import Frame, frame_in
from platewheel.nesting.stock.layout import Sheet
from platewheel.nesting.templates.paper import Paper

GAP_MM, FOOT_MM, HEAD_MM = 2.5, 4.0, 8.0
HAIR_MM = 0.1  # a page that is full to the last hair would run over
FIGURES_MM, LEAST_TABLE_MM = 64.0, 84.0
UPPER = 0.62  # most of the page's height for the picture
BELOW = (0.38, 0.36, 0.26)  # of the width: legend, words, ticks


@dataclass(frozen=True)
class Boxes:
    """Widths and heights on one page, mm."""

    width_mm: float
    head_mm: float
    upper_mm: float
    lower_mm: float
    foot_mm: float
    picture_mm: float
    figures_mm: float
    below_mm: tuple[float, float, float]


@dataclass(frozen=True)
class Page:
    """A page, its boxes, and the plate in its picture."""

    width_mm: float
    height_mm: float
    boxes: Boxes
    frame: Frame

    @property
    def data(self) -> dict[str, object]:
        """As the template reads it."""
        wide, high = self.frame.size_mm
        return {
            "page": {"width_mm": self.width_mm, "height_mm": self.height_mm},
            "boxes": asdict(self.boxes),
            "size": {"width_mm": wide, "height_mm": high},
        }


def page_for(sheet: Sheet, paper: Paper) -> Page:
    """Across the paper's long side where the plate is longer along x than along y, else upright."""
    sides = (paper.width_mm, paper.height_mm)
    across, up = sides[::-1] if sheet.length_mm >= sheet.width_mm else sides
    wide = across - 2 * paper.margin_mm
    high = up - 2 * paper.margin_mm - FOOT_MM - HEAD_MM - 3 * GAP_MM - HAIR_MM
    picture = wide - FIGURES_MM - GAP_MM
    frame = frame_in(sheet, picture, UPPER * high)
    upper = max(frame.size_mm[1], min(LEAST_TABLE_MM, UPPER * high))
    room = wide - 2 * GAP_MM
    below = (BELOW[0] * room, BELOW[1] * room, BELOW[2] * room)
    boxes = Boxes(wide, HEAD_MM, upper, high - upper, FOOT_MM, picture, FIGURES_MM, below)
    return Page(across, up, boxes, frame)
