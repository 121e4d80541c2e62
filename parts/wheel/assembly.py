"""The wheel as a list of parts and as an assembly of solids, named and coloured."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.section import Section
from platewheel.parts.wheel.flange import (
    flange_blank,
    flange_cone,
    flange_section,
    flange_volume_mm3,
)
from platewheel.parts.wheel.hub_disc import (
    SIDES,
    disc_blank,
    disc_name,
    disc_section,
    disc_volume_mm3,
    discs_differ,
    hub_disc,
)
from platewheel.parts.wheel.hub_tube import hub_tube, tube_section, tube_volume_mm3
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.tread_ring import (
    tread_blank,
    tread_ring,
    tread_section,
    tread_volume_mm3,
)
from platewheel.parts.wheel.welds import weld_beads

if TYPE_CHECKING:
    import cadquery as cq

COLOURS = {  # part -> red, green, blue: steel tones that stay apart in a picture
    "tread": (0.55, 0.60, 0.66),
    "disc": (0.80, 0.74, 0.60),
    "flange": (0.36, 0.49, 0.58),
    "hub-tube": (0.62, 0.52, 0.44),
    "weld": (0.78, 0.36, 0.22),
}


@dataclass(frozen=True)
class Part:
    """One kind of part of a wheel. `solid` builds the first of them, in place."""

    name: str
    count_per_wheel: int
    volume_mm3: float
    solid: Callable[[], cq.Solid]
    blank: Blank | None = None

    @property
    def mass_kg(self) -> float:
        """Mass of one."""
        return self.volume_mm3 * DENSITY_KG_MM3


def wheel_parts(spec: WheelSpec) -> tuple[Part, ...]:
    """The plate and tube parts of one wheel, by closed forms; no solid is built."""
    tread = tread_blank(spec)
    parts = [Part("tread", 1, tread_volume_mm3(spec), partial(tread_ring, spec), tread)]
    sides = SIDES if discs_differ(spec) else SIDES[:1]
    for side in sides:
        parts.append(
            Part(
                disc_name(spec, side),
                2 // len(sides),
                disc_volume_mm3(spec, side),
                partial(hub_disc, spec, side),
                disc_blank(spec, side),
            )
        )
    parts.append(
        Part(
            "flange",
            spec.flange_segments,
            flange_volume_mm3(spec),
            partial(flange_cone, spec),
            flange_blank(spec),
        )
    )
    if spec.has_tube:
        parts.append(Part("hub-tube", 1, tube_volume_mm3(spec), partial(hub_tube, spec)))
    return tuple(parts)


def weld_mass_kg(spec: WheelSpec) -> float:
    """Mass of all beads of one wheel."""
    return sum(bead.volume_mm3 for bead in weld_beads(spec)) * DENSITY_KG_MM3


def wheel_mass_kg(spec: WheelSpec) -> float:
    """Mass of one wheel, beads included, without coating."""
    plates = sum(part.mass_kg * part.count_per_wheel for part in wheel_parts(spec))
    return plates + weld_mass_kg(spec)


def wheel_sections(spec: WheelSpec) -> tuple[tuple[str, Section], ...]:
    """Named r-z sections of everything that turns about the axis, for drawings and analysis."""
    sections = [("tread", tread_section(spec)), ("flange", flange_section(spec))]
    sections += [(f"disc-{side}", disc_section(spec, side)) for side in SIDES]
    if spec.has_tube:
        sections.append(("hub-tube", tube_section(spec)))
    beads = (bead for bead in weld_beads(spec) if not bead.name.startswith("weld-seam"))
    return (*sections, *((bead.name, bead.section) for bead in beads))


def wheel_solids(spec: WheelSpec, *, welds: bool = True) -> Iterator[tuple[str, cq.Solid]]:
    """Every solid of one wheel in its place, by a name of its own. Raises: GeometryError."""
    yield "tread", tread_ring(spec)
    for side in SIDES:
        yield f"disc-{side}", hub_disc(spec, side)
    for i in range(spec.flange_segments):
        yield ("flange" if spec.flange_segments == 1 else f"flange-{i + 1}"), flange_cone(spec, i)
    if spec.has_tube:
        yield "hub-tube", hub_tube(spec)
    if welds:
        for bead in weld_beads(spec):
            yield bead.name, bead.solid()


def wheel(spec: WheelSpec, *, welds: bool = True) -> cq.Assembly:
    """The whole wheel in its own axes, each part named and coloured; no two solids overlap.

    Raises: GeometryError naming the part that the modeller cannot build.
    """
    import cadquery as cq

    assembly = cq.Assembly(name="wheel")
    for name, solid in wheel_solids(spec, welds=welds):
        kind = next(kind for kind in COLOURS if name.startswith(kind))
        assembly.add(solid, name=name, color=cq.Color(*COLOURS[kind]))
    return assembly
