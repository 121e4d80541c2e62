"""A kind of part of a wheel as one record, and a part as the rest of the house asks about it.

Whoever draws, cuts, meshes, weighs or prices a wheel asks these records, and knows no part by its
name. Each part's module ends in its record; `kinds.py` lists them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.section import Section
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq

CutFrom = Literal["sheet", "bar", "pipe", "tube"]
Role = Literal["runs on the rail", "guides", "carries"]
Sections = tuple[tuple[str, Section], ...]
Length = Callable[[float], str]  # a length in mm as a drawing prints it


@dataclass(frozen=True)
class Part:
    """One kind of part of a wheel, with its count. `solid` builds the first of them, in place."""

    name: str
    count_per_wheel: int
    volume_mm3: float
    solid: Callable[[], cq.Solid]
    blank: Blank | None = None
    cut_from: CutFrom = "sheet"
    steel: str = ""  # grade; empty where the wheel's is meant

    @property
    def mass_kg(self) -> float:
        """Mass of one."""
        return self.volume_mm3 * DENSITY_KG_MM3


@dataclass(frozen=True, kw_only=True)
class Look:
    """How a part looks: red, green, blue of its solid; in sections the turn of its hatching in
    degrees, the pitch over the height of letters, ground and plain fill, and its layer: low ones
    are drawn first."""

    colour: tuple[float, float, float]
    hatch_deg: float
    hatch_pitch: float
    ground: str
    fill: str
    layer: int


@dataclass(frozen=True, kw_only=True)
class Shown:
    """A part pulled out of the wheel: what is written beside it, the names of its solids, its
    largest radius, and its place in the row from the field side."""

    key: str
    rows: tuple[str, ...]
    solids: tuple[str, ...]
    radius_mm: float
    place: int


@dataclass(frozen=True, kw_only=True)
class Forming:
    """Work that gives a part its shape: what it is called, of what, and the key of its minutes."""

    work: str
    unit: str
    minutes_key: str


@dataclass(frozen=True, kw_only=True)
class Cut:
    """A flat piece as its cutting counts: how many, area, cut edge, pierces, and the plate that
    it takes among its like for a given spacing; mm, mm2."""

    count: int
    area_mm2: float
    edge_mm: float
    pierces: int
    room_mm2: Callable[[float], float]


@dataclass(frozen=True, kw_only=True)
class PartKind:
    """Everything about a kind of part, as functions of the wheel's dimensions.

    `name` begins the names of its parts, solids and files, `names` are all of them; `title` is
    what a person calls it. `there`: whether a wheel has it. `thickness_key` is the dimension of
    its plate. `sections` turn about the axis; `plates` are the same for the stress analysis, with
    corner 0 to 1 along the plate and 0 to 3 through it, and `rated` says whether that analysis
    knows the part at all. `cut` is asked only of what is cut from sheet, `stock_words` of tube.
    `fitted`: how many are fitted into the ring.
    """

    name: str
    title: str
    names: tuple[str, ...]
    role: Role
    look: Look
    parts: Callable[[WheelSpec], tuple[Part, ...]]
    solids: Callable[[WheelSpec], Iterator[tuple[str, cq.Solid]]]
    sections: Callable[[WheelSpec], Sections]
    shown: Callable[[WheelSpec, Length], tuple[Shown, ...]]
    thickness_mm: Callable[[WheelSpec], float]
    thickness_key: str = ""
    plates: Callable[[WheelSpec], Sections] | None = None
    rated: bool = True
    there: Callable[[WheelSpec], bool] = lambda spec: True
    cut_from: Callable[[WheelSpec], CutFrom] = lambda spec: "sheet"
    cut: Callable[[WheelSpec], Cut] | None = None
    stock_words: Callable[[WheelSpec], str] | None = None
    forming: Callable[[WheelSpec], Forming | None] = lambda spec: None
    fitted: int = 0
