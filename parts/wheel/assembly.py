"""The wheel as a list of parts and as an assembly of solids, named and coloured."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from platewheel.parts.base.steel import DENSITY_KG_MM3
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.hub_disc import DISC
from platewheel.parts.wheel.kinds import KINDS, colour_of
from platewheel.parts.wheel.own_disc import own_parts, own_section, own_solids
from platewheel.parts.wheel.part import Part, Sections
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheel.welds import weld_beads

if TYPE_CHECKING:
    import cadquery as cq


def wheel_parts(spec: WheelSpec, *, disc: Blank | None = None) -> tuple[Part, ...]:
    """The plate and tube parts of one wheel, by closed forms; no solid is built. mm, mm3, kg.

    `disc`: one of your own, in place of both hub discs, as for `wheel`. Raises: SpecError where
    that does not fit.

    >>> [part.name for part in wheel_parts(spec)]
    ['tread', 'disc', 'flange', 'hub-tube']
    """
    return tuple(
        part
        for kind in KINDS
        for part in (own_parts(spec, disc) if disc and kind is DISC else kind.parts(spec))
    )


def weld_mass_kg(spec: WheelSpec) -> float:
    """Mass of all beads of one wheel."""
    return sum(bead.volume_mm3 for bead in weld_beads(spec)) * DENSITY_KG_MM3


def wheel_mass_kg(spec: WheelSpec, *, disc: Blank | None = None) -> float:
    """Mass of one wheel, kg, beads included, without coating: steel of 7850 kg/m3 (EN 1991-1-1).

    `disc`: one of your own, as for `wheel`. Raises: SpecError where that does not fit.

    >>> wheel_mass_kg(spec) > sum(p.mass_kg * p.count_per_wheel for p in wheel_parts(spec))
    True
    """
    plates = sum(part.mass_kg * part.count_per_wheel for part in wheel_parts(spec, disc=disc))
    return plates + weld_mass_kg(spec)


def wheel_sections(spec: WheelSpec, disc: Blank | None = None) -> Sections:
    """Named r-z sections of everything that turns about the axis, for drawings and analysis; in
    the order in which they are drawn. Discs are cut through plain plate: of one of your own
    rim and hub hole are told."""
    kinds = sorted(KINDS, key=lambda kind: kind.look.layer)
    plates = (
        section
        for kind in kinds
        for section in (own_section(spec, disc) if disc and kind is DISC else kind.sections(spec))
    )
    beads = (bead for bead in weld_beads(spec) if not bead.name.startswith("weld-seam"))
    return (*plates, *((bead.name, bead.section) for bead in beads))


def wheel_solids(
    spec: WheelSpec, *, welds: bool = True, disc: Blank | None = None
) -> Iterator[tuple[str, cq.Solid]]:
    """Every solid of one wheel in its place, by a name of its own; mm. Raises: GeometryError.

    `disc`: one of your own, as for `wheel`. Raises: SpecError where that does not fit.

    >>> dict(wheel_solids(spec, welds=False))["hub-tube"].isValid()
    True
    """
    for kind in KINDS:
        yield from own_solids(spec, disc) if disc and kind is DISC else kind.solids(spec)
    if welds:
        for bead in weld_beads(spec):
            yield bead.name, bead.solid()


def wheel(spec: WheelSpec, *, welds: bool = True, disc: Blank | None = None) -> cq.Assembly:
    """The whole wheel in its own axes, each part named and coloured; no two solids overlap.

    Axis Z, z = 0 at the field edge, +Z to the middle of the track; mm. Raises: GeometryError
    naming the part that the modeller cannot build.

    `disc` is one of your own in place of both hub discs, its axis on the origin: holes of any
    outline, clear of the beads. Raises: SpecError where its rim does not fit the ring bore, its
    hub hole the tube, its thickness the wheel. No check or rating knows it: have its strength, and
    vents for a zinc bath (a sealed box explodes there), judged by someone who does.

    >>> wheel(spec, welds=False).children[0].name
    'tread'
    """
    import cadquery as cq

    assembly = cq.Assembly(name="wheel")
    for name, solid in wheel_solids(spec, welds=welds, disc=disc):
        assembly.add(solid, name=name, color=cq.Color(*colour_of(name)))
    return assembly
