"""Hub tube: through both discs, welded to each; takes the axle, a bush or bearings."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from platewheel.parts.base.faults import GeometryError
from platewheel.parts.geometry.section import Section, rectangle, revolved_volume_mm3
from platewheel.parts.wheel.part import Length, Look, Part, PartKind, Sections, Shown
from platewheel.parts.wheel.spec import WheelSpec

if TYPE_CHECKING:
    import cadquery as cq


def tube_z_mm(spec: WheelSpec) -> tuple[float, float]:
    """Ends of the tube, centred on the pair of discs."""
    middle = (spec.disc_field_inset_mm + spec.tread_width_mm - spec.disc_gauge_inset_mm) / 2
    return middle - spec.hub_tube_length_mm / 2, middle + spec.hub_tube_length_mm / 2


def tube_section(spec: WheelSpec) -> Section:
    """Tube's section. Raises: GeometryError for a wheel without a tube."""
    if not spec.has_tube:
        raise GeometryError("hub-tube: hub_tube_length_mm = 0, this wheel has none")
    return rectangle(spec.hub_bore_mm / 2, spec.hub_tube_outside_mm / 2, *tube_z_mm(spec))


def hub_tube(spec: WheelSpec) -> cq.Solid:
    """Tube in its place on the wheel, mm. Raises: GeometryError for a wheel without a tube.

    >>> hub_tube(spec).isValid()
    True
    """
    from platewheel.parts.geometry.solid import revolved

    return revolved(tube_section(spec), "hub-tube")


def tube_volume_mm3(spec: WheelSpec) -> float:
    """Volume of the tube."""
    return revolved_volume_mm3(tube_section(spec))


def tube_words(spec: WheelSpec) -> str:
    """Outside x wall x length of the tube, mm; empty for a wheel without one."""
    if not spec.has_tube:
        return ""
    wall = (spec.hub_tube_outside_mm - spec.hub_bore_mm) / 2
    return f"{spec.hub_tube_outside_mm:g} x {wall:g} x {spec.hub_tube_length_mm:g} mm"


def tube_plates(spec: WheelSpec) -> Sections:
    """Tube's section for the stress analysis: its outer face first, along z."""
    if not spec.has_tube:
        return ()
    tube = tube_section(spec)
    return (("hub-tube", (tube[1], tube[2], tube[3], tube[0])),)


def _parts(spec: WheelSpec) -> tuple[Part, ...]:
    if not spec.has_tube:
        return ()
    solid = partial(hub_tube, spec)
    return (Part("hub-tube", 1, tube_volume_mm3(spec), solid, None, "tube", spec.steel),)


def _shown(spec: WheelSpec, mm: Length) -> tuple[Shown, ...]:
    if not spec.has_tube:
        return ()
    bore = f"Ø{mm(spec.hub_tube_outside_mm)} / Ø{mm(spec.hub_bore_mm)}"
    rows = ("hub tube", bore, f"{mm(spec.hub_tube_length_mm)} long")
    radius = spec.hub_tube_outside_mm / 2
    return (Shown(key="hub-tube", rows=rows, solids=("hub-tube",), radius_mm=radius, place=0),)


TUBE = PartKind(
    name="hub-tube",
    title="hub tube",
    names=("hub-tube",),
    role="carries",
    look=Look(
        colour=(0.62, 0.52, 0.44),
        hatch_deg=45,
        hatch_pitch=0.3,
        ground="#eee6de",
        fill="#e0d3c6",
        layer=3,
    ),
    parts=_parts,
    solids=lambda spec: iter([("hub-tube", hub_tube(spec))] if spec.has_tube else []),
    sections=lambda spec: (("hub-tube", tube_section(spec)),) if spec.has_tube else (),
    plates=tube_plates,
    shown=_shown,
    thickness_mm=lambda spec: (spec.hub_tube_outside_mm - spec.hub_bore_mm) / 2,
    there=lambda spec: spec.has_tube,
    cut_from=lambda spec: "tube",
    stock_words=tube_words,
    fitted=1,
)
