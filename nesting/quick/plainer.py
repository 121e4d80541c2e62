"""What outlines of very many corners, and very many unlike parts, lose on the plate."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from platewheel.nesting.geometry.facets import MOST_CORNERS, laid_larger
from platewheel.parts.geometry.blank import Blank

MANY_KINDS = 45  # unlike blanks of one thickness: of more each is tried at two turns
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


def few_turns_words(thickness_mm: float, kinds: int) -> Iterator[str]:
    """A line where a thickness has so many kinds of blank that few turns of each are tried."""
    if kinds > MANY_KINDS:
        yield (
            f"{thickness_mm:g} mm: {kinds} kinds of part, more than {MANY_KINDS}: each is tried "
            "along and across the plate alone. In jobs of fewer kinds they may lie closer."
        )
