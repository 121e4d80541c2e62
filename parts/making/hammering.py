"""A cone hammered over a former: where to strike, how far, how often, cold or hot. mm, degrees.

The former is two round bars that lie as the cone's own straight lines do: nearer together at the
root than at the tip. The blow falls between them, so that the plate bends along the cone's lines
and across none.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from platewheel.parts.base.steel import STEELS
from platewheel.parts.making.springback import flange_bent_mm
from platewheel.parts.wheel.flange import slant_radii_mm
from platewheel.parts.wheel.spec import WheelSpec

LINE_DEG = 10.0  # of the wheel, between lines that are struck: three to each mark of the blank
LAP_DEG = 3.0  # bent at a line in one pass over the piece: 3 to 5, common practice, no source
LEAST_PASSES = 2  # one to bend, one to true
USEFUL_J = 20.0  # of a blow of a 2 kg hammer: 50 to 100 J, a third of it bends; common practice
# N mm: plate of 6 mm, 100 mm wide, S235, is struck cold, thicker or wider than that hot or in a
# press; common practice, no source
COLD_MOMENT = 235 * 100 * 6**2 / 4
COLD_STRAIN = 0.05
STRAIN_SOURCE = (
    "outer fibre t / 2R (plain geometry); above 5 % pressure vessel codes ask for heat treatment "
    "after cold forming, from memory"
)
HOT_DEG, HOT_SHARE = 800.0, 0.11
HOT_SOURCE = "at 800 degrees steel has 0.11 of its yield strength: EN 1993-1-2:2005, table 3.1"
WORK_SOURCE = "plastic hinge, Re t^2 / 4 x length x angle: plain plasticity"


@dataclass(frozen=True)
class Hammered:
    """One flange piece. `gap_mm`: between the bars' tops, at root and tip of the blank.

    `depth_mm`: how far the plate is below a straightedge over the bars in the last pass, struck:
    steel as named, and half as strong again; `let_go_mm`: what the cone keeps of it. `blows` at
    each line in each pass.
    """

    lines: int
    apart_mm: float
    gap_mm: tuple[float, float]
    turn_deg: float
    passes: int
    depth_mm: tuple[float, float]
    let_go_mm: float
    strain: float
    work_j: float
    blows: int
    hot: bool
    force_n: float

    @property
    def a_pass_mm(self) -> float:
        """Deeper by so much with each pass."""
        return self.depth_mm[0] / self.passes


def hammered(spec: WheelSpec) -> Hammered:
    """How one piece is struck to a cone. Sources: those above; springback as in `springback`.

    Raises: ZeroDivisionError for a flange of 90 degrees, which is flat.
    """
    radius, (tight, loose) = flange_bent_mm(spec)
    inner, outer = slant_radii_mm(spec)
    middle, wall = (inner + outer) / 2, spec.flange_thickness_mm
    # on the blank, that is on the mid-surface: three of them are one space of its marks
    apart = math.radians(LINE_DEG) * middle * math.sin(spec.flange_angle)
    turn = apart / tight
    passes = max(LEAST_PASSES, math.ceil(math.degrees(turn) / LAP_DEG - 1e-9))
    gap = 2 * apart
    plastic = STEELS[spec.steel].fy_n_mm2(wall) * (outer - inner) * wall**2 / 4
    work = plastic * turn / passes / 1000
    strain = wall / (2 * tight)
    hot = plastic > COLD_MOMENT or strain > COLD_STRAIN
    if hot:
        work, plastic = HOT_SHARE * work, HOT_SHARE * plastic
    return Hammered(
        lines=max(1, math.floor(360 / spec.flange_segments / LINE_DEG)),
        apart_mm=apart,
        gap_mm=(gap * inner / middle, gap * outer / middle),
        turn_deg=math.degrees(turn),
        passes=passes,
        depth_mm=(gap**2 / (8 * loose), gap**2 / (8 * tight)),
        let_go_mm=gap**2 / (8 * radius),
        strain=strain,
        work_j=work,
        blows=math.ceil(work / USEFUL_J),
        hot=hot,
        force_n=4 * plastic / gap,
    )
