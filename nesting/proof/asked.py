"""What a cutting file must hold, as plain values that its proof is given. mm."""

from __future__ import annotations

from dataclasses import dataclass

from platewheel.parts.geometry.outline import Loop, Point

Ring = tuple[Point, ...]


@dataclass(frozen=True)
class AskedPart:
    """A finished part where it lies on the plate; `number` is its place in the order of cuts."""

    number: int
    name: str
    outline: Loop
    holes: tuple[Loop, ...] = ()


@dataclass(frozen=True)
class Kept:
    """A piece of the plate to keep."""

    corners: Ring
    holes: tuple[Ring, ...] = ()


@dataclass(frozen=True)
class Told:
    """What the user has been told is not as wanted, by number of part."""

    no_lead: frozenset[int] = frozenset()  # a cut of it begins on the edge
    near_pierce: frozenset[int] = frozenset()  # a hole of it is too small to pierce well away
    fewer_tabs: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Asked:
    """A plate, the parts on it, and how they are to be cut.

    `pierces` and `cut_length_mm` are what the report says of one plate. `keep_reach_mm`: how far
    the steel that comes free with a kept piece may reach beyond it. `parted`: kept pieces are cut
    free; false leaves them in the grid. `shared`: pairs of parts, by number, that lie one kerf
    apart; the line between them is cut with the first, the other's outline is open there.
    """

    plate: Ring
    parts: tuple[AskedPart, ...]
    pierces: int
    cut_length_mm: float
    kerf_mm: float
    kerf_in_path: bool = False
    lead_in_mm: float = 0.0
    pierce_clear_mm: float = 0.0
    tab_count: int = 0
    tab_width_mm: float = 0.0
    plate_holes: tuple[Ring, ...] = ()
    kept: tuple[Kept, ...] = ()
    keep_reach_mm: float = 5.0
    parted: bool = True
    told: Told = Told()
    shared: tuple[tuple[int, int], ...] = ()

    @property
    def half_mm(self) -> float:
        """Half the kerf."""
        return self.kerf_mm / 2

    @property
    def path_off_mm(self) -> float:
        """How far the paths of the file lie from the finished edges."""
        return self.half_mm if self.kerf_in_path else 0.0
