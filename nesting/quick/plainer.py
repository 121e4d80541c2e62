"""What outlines of very many corners lose on the plate, being laid as plainer ones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from platewheel.nesting.geometry.facets import MOST_CORNERS, laid_larger
from platewheel.parts.geometry.blank import Blank

TOLD = 0.05  # of the part's area: less is no more than the gaps between parts vary by


def plainer_words(blanks: Iterable[Blank]) -> Iterator[str]:
    """A line for each blank that takes much more plate than its outline needs."""
    for blank in blanks:
        larger = laid_larger(blank.outline)
        if larger > TOLD:
            yield (
                f"{blank.name}: more than {MOST_CORNERS} corners; laid as a plainer outline about "
                f"it, {100 * larger:.0f} % larger, cut as drawn. "
                "With curves drawn as arcs, or fewer corners, parts may lie closer."
            )
