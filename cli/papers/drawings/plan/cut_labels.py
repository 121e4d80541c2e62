"""Where the number of a straight cut stands: on its line, near its beginning."""

from __future__ import annotations

from platewheel.cli.papers.drawings.plan.frame import Frame
from platewheel.cli.papers.drawings.plan.numbers import Label
from platewheel.parts.geometry.outline import Line

SIZE_PT, IN_MM = 5.5, 6.0  # of paper, from the line's end
SHARE = 0.25  # of a short line


def cut_label(number: int, axis: int, line: Line, frame: Frame) -> Label:
    """`cut 7` along its line, a white box behind it."""
    (x, y), (u, v) = frame.at(line.start), frame.at(line.end)
    if axis == 0:
        y -= min(IN_MM, SHARE * abs(v - y))
    else:
        x += min(IN_MM, SHARE * abs(u - x))
    turn = 90.0 if axis == 0 else 0.0
    return Label(f"cut {number}", round(x, 3), round(y, 3), SIZE_PT, (x, y), turn)
