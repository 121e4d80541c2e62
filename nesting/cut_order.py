"""The order in which a plate is cut: by short rapid moves, each part's holes before its outline."""

from __future__ import annotations

import math
from collections.abc import Sequence

from nesting.layout import Placement
from parts.outline import bounds


def cut_order(placements: Sequence[Placement]) -> tuple[Placement, ...]:
    """Placements from the lower left corner on, always the nearest part not yet cut."""
    centres = {}
    for i, placement in enumerate(placements):
        x0, y0, x1, y1 = bounds(placement.outline)
        centres[i] = ((x0 + x1) / 2, (y0 + y1) / 2)
    here, order = (0.0, 0.0), []
    while centres:
        chosen = min(centres, key=lambda i: (round(math.dist(here, centres[i]), 6), i))
        here = centres.pop(chosen)
        order.append(placements[chosen])
    return tuple(order)
