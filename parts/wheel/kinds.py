"""The kinds of part that a wheel is made of: the one list, in the order in which they are told."""

from __future__ import annotations

from platewheel.parts.wheel.flange import FLANGE
from platewheel.parts.wheel.hub_disc import DISC
from platewheel.parts.wheel.hub_tube import TUBE
from platewheel.parts.wheel.part import PartKind
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import TREAD

KINDS: tuple[PartKind, ...] = (TREAD, DISC, FLANGE, TUBE)
PART_NAMES = tuple(name for kind in KINDS for name in kind.names)  # of parts and their files
WELD_COLOUR = (0.78, 0.36, 0.22)


def kind_of(name: str) -> PartKind | None:
    """Kind of a part, solid or section by its name; None for a bead."""
    return next((kind for kind in KINDS if name.startswith(kind.name)), None)


def kinds_of(spec: WheelSpec) -> tuple[PartKind, ...]:
    """The kinds that this wheel has."""
    return tuple(kind for kind in KINDS if kind.there(spec))


def colour_of(name: str) -> tuple[float, float, float]:
    """Red, green and blue of a solid by its name: steel tones that stay apart in a picture."""
    kind = kind_of(name)
    return kind.look.colour if kind else WELD_COLOUR
