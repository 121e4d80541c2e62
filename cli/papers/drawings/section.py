"""Section of the wheel as a drawing (SVG): hatched parts, dimensions, welding symbols, axes."""

from __future__ import annotations

from html import escape

from platewheel.cli.papers.drawings.dimension_lines import INK, line, words
from platewheel.cli.papers.drawings.section_columns import columns
from platewheel.cli.papers.drawings.section_dimensions import (
    along_axle,
    left_stack,
    right_stack,
    rows_above,
    tread_seam,
)
from platewheel.cli.papers.drawings.section_layout import Frame, frame, stack_width, stacked
from platewheel.parts.base.units import Units
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.geometry.section import Section
from platewheel.parts.wheel.assembly import wheel_sections
from platewheel.parts.wheel.hub_disc import SIDES, disc_diameter_mm, disc_z_mm
from platewheel.parts.wheel.kinds import KINDS, kind_of
from platewheel.parts.wheel.own_disc import openings, reach_mm
from platewheel.parts.wheel.spec import WheelSpec


def section_picture(spec: WheelSpec, units: Units = "mm", disc: Blank | None = None) -> str:
    """SVG element: upper half of the section, axle axis below, gauge side to the right.
    `disc` is one of the user's own: what is cut into it stands dashed behind the plane.

    Drawn in mm; dimensions printed in mm or inches to 1/64. Parts differ by the direction and
    the pitch of their hatching, so that the drawing reads in greys; beads are black.
    """
    f = frame(spec)
    s = f.size
    left_items, right_items = left_stack(spec, f, units, disc), right_stack(spec, f, units)
    seam_left, seam = tread_seam(spec, f, units)
    left_column = min(f.z0 - stack_width(left_items, s), seam_left) - 1.5 * s
    right_column = f.z1 + stack_width(right_items, s) + 1.5 * s
    top = -f.tip - rows_above(spec, f, units) - 4.0 * s
    # below the axis: the tube's length, and texts of diameters too small to hold them
    bore, rim = spec.hub_bore_mm / 2, disc_diameter_mm(spec, "field") / 2
    bottom = max(6.0 * s, 9.0 * s - bore, 14.5 * s - rim)
    radial_under, radial = columns(spec, f, left_column, right_column, units)
    axial_under, axial = along_axle(spec, f, units)
    body = [
        _hatches(s),
        radial_under,
        axial_under,
        *(_shape(name, section, s) for name, section in wheel_sections(spec, disc)),
        _vents(spec, f) if disc is None else _openings(spec, disc, f),
        line([(left_column - 11 * s, 0), (right_column + 5 * s, 0)], s, "2 0.4 0.3 0.4"),
        radial,
        axial,
        stacked(left_items, -f.tip, -1.5 * s),
        stacked(right_items, -f.tip + 1.7 * s, -1.5 * s),
        seam,
        words((f.z0 - s, bottom - 0.8 * s), "field side", s, "end"),
        words((f.z1 + s, bottom - 0.8 * s), "gauge side", s),
    ]
    left, right = left_column - 11.5 * s, right_column + 5.5 * s
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="section of the wheel" '
        f'viewBox="{left:.1f} {top:.1f} {right - left:.1f} {bottom - top:.1f}" '
        f'font-family="sans-serif" font-size="{s:.2f}" fill="{INK}" stroke-linejoin="round">'
        f"<title>Section of the wheel, upper half</title>{''.join(body)}</svg>"
    )


def _hatches(size: float) -> str:
    patterns = []
    for kind in KINDS:
        part, look = kind.name, kind.look
        p = look.hatch_pitch * size
        patterns.append(
            f'<pattern id="hatch-{part}" width="{p:.3f}" height="{p:.3f}" '
            f'patternUnits="userSpaceOnUse" patternTransform="rotate({look.hatch_deg:g})">'
            f'<rect width="{p:.3f}" height="{p:.3f}" fill="{look.ground}"/>'
            f'<path d="M{p / 2:.3f} 0V{p:.3f}" stroke="#444" stroke-width="{0.05 * size:.3f}"/>'
            "</pattern>"
        )
    return f"<defs>{''.join(patterns)}</defs>"


def _shape(name: str, section: Section, size: float) -> str:
    kind = kind_of(name)
    fill = f"url(#hatch-{kind.name})" if kind else INK
    points = " ".join(f"{z:.3f},{-r:.3f}" for r, z in section)
    return (
        f'<polygon points="{points}" fill="{fill}" stroke="{INK}" '
        f'stroke-width="{0.11 * size:.3f}"><title>{escape(name)}</title></polygon>'
    )


def _vents(spec: WheelSpec, f: Frame) -> str:
    """Vent holes behind the plane of the section: dashed edges, chain line on their circle."""
    if not spec.vent_count:
        return ""
    s, circle, half = f.size, spec.vent_circle_mm / 2, spec.vent_diameter_mm / 2
    lines = []
    for side in SIDES:
        low, high = disc_z_mm(spec, side)
        lines += [
            line([(low, -r), (high, -r)], s, "0.4 0.25") for r in (circle - half, circle + half)
        ]
        lines.append(line([(low - s, -circle), (high + s, -circle)], s, "1 0.3 0.2 0.3"))
    return "".join(lines)


def _openings(spec: WheelSpec, disc: Blank, f: Frame) -> str:
    """Openings of a disc of one's own behind the plane: dashed where one begins or ends."""
    radii = {round(r, 1) for hole in openings(disc) for r in reach_mm(hole)}
    return "".join(
        line([(low, -r), (high, -r)], f.size, "0.4 0.25")
        for low, high in (disc_z_mm(spec, side) for side in SIDES)
        for r in sorted(radii)
    )
