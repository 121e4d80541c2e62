"""Section of the wheel as a drawing (SVG): hatched parts, beads, axes and main dimensions."""

from __future__ import annotations

from html import escape

from parts.section import Section
from parts.wheel import wheel_sections
from parts.wheel_spec import WheelSpec

FILLS = {"tread": "a", "disc": "b", "flange": "a", "hub-tube": "c", "weld": "w"}
PATTERNS = (
    '<defs><pattern id="a" width="4" height="4" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><rect width="4" height="4" fill="#dfe5e9"/>'
    '<path d="M0 0V4" stroke="#556" stroke-width=".7"/></pattern>'
    '<pattern id="b" width="4" height="4" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(-45)"><rect width="4" height="4" fill="#efe9db"/>'
    '<path d="M0 0V4" stroke="#665" stroke-width=".7"/></pattern>'
    '<pattern id="c" width="3" height="3" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><rect width="3" height="3" fill="#e8dfd6"/>'
    '<path d="M0 0V3" stroke="#654" stroke-width=".9"/></pattern></defs>'
)


def section_picture(spec: WheelSpec) -> str:
    """SVG element: upper half of the section, axle axis below, gauge side to the right; mm."""
    sections = wheel_sections(spec)
    z0 = min(z for _, section in sections for _, z in section)
    z1 = max(z for _, section in sections for _, z in section)
    tip = max(r for _, section in sections for r, _ in section)
    size = 0.042 * tip  # of the letters: all else is spaced by it
    left, right, top = z0 - 13 * size, z1 + 14 * size, -tip - 6 * size
    body = [PATTERNS]
    body += [_shape(name, section) for name, section in sections]
    body.append(
        f'<path d="M{left + 5 * size:.1f} 0H{right - 4 * size:.1f}" stroke="#444" '
        'stroke-width=".5" stroke-dasharray="12 3 2 3"/>'
    )
    body += _dimensions(spec, z0, z1, tip, size)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="section of the wheel" '
        f'viewBox="{left:.1f} {top:.1f} {right - left:.1f} {-top + 4 * size:.1f}" '
        f'font-family="sans-serif" font-size="{size:.2f}" fill="#222" stroke-linejoin="round">'
        f"<title>Section of the wheel, upper half</title>{''.join(body)}</svg>"
    )


def _shape(name: str, section: Section) -> str:
    key = next(kind for kind in FILLS if name.startswith(kind))
    fill = "#333" if FILLS[key] == "w" else f"url(#{FILLS[key]})"
    points = " ".join(f"{z:.3f},{-r:.3f}" for r, z in section)
    return (
        f'<polygon points="{points}" fill="{fill}" stroke="#222" stroke-width=".6">'
        f"<title>{escape(name)}</title></polygon>"
    )


def _dimensions(spec: WheelSpec, z0: float, z1: float, tip: float, size: float) -> list[str]:
    width, radius = spec.tread_width_mm, spec.tread_radius_mm
    field, gauge = spec.disc_field_inset_mm, spec.disc_gauge_inset_mm
    far, near = z1 + 4 * size, z0 - 3 * size
    parts = [
        _level(0, width, -tip - 2.5 * size, -radius, f"{width:g} tread"),
        _upright(0, -radius, far, width, f"{spec.tread_diameter_mm:g} dia"),
        _upright(-radius, -tip, far, width, f"{spec.flange_depth_mm:g} flange depth"),
        _upright(0, -spec.hub_bore_mm / 2, near, z0, f"{spec.hub_bore_mm:g} dia bore"),
        _level(0, field, -radius * 0.62, None, f"{field:g}"),
        _level(width - gauge, width, -radius * 0.62, None, f"{gauge:g}"),
        _words(z0 - size, -radius * 0.75, f"discs {spec.disc_thickness_mm:g}", "end"),
        _words(z0 - size, -radius + size, f"ring {spec.tread_thickness_mm:g}", "end"),
        _words(
            z1 + size,
            -tip - size,
            f"flange {spec.flange_thickness_mm:g}, at {spec.flange_angle_deg:g} deg",
        ),
        _words(0, 2.5 * size, "field side", "middle"),
        _words(width, 2.5 * size, "gauge side", "middle"),
    ]
    if spec.has_tube:
        tube = f"tube {spec.hub_tube_outside_mm:g} dia, {spec.hub_tube_length_mm:g} long"
        parts.append(_words(z0 - size, -spec.hub_tube_outside_mm / 2 - size, tube, "end"))
    return parts


def _words(x: float, y: float, text: str, anchor: str = "start") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{escape(text)}</text>'


def _level(x0: float, x1: float, y: float, reach: float | None, text: str) -> str:
    """Dimension along the axis, ticks at its ends; `reach` is where its witness lines start."""
    lines = "".join(
        f"M{x:.1f} {y - 2:.1f}V{(y + 2 if reach is None else reach):.1f}" for x in (x0, x1)
    )
    return _line(f"M{x0:.1f} {y:.1f}H{x1:.1f}{lines}") + _words(
        (x0 + x1) / 2, y - 3, text, "middle"
    )


def _upright(y0: float, y1: float, x: float, reach: float, text: str) -> str:
    lines = "".join(f"M{x + (2 if reach < x else -2):.1f} {y:.1f}H{reach:.1f}" for y in (y0, y1))
    side, anchor = (4.0, "start") if reach < x else (-4.0, "end")
    return _line(f"M{x:.1f} {y0:.1f}V{y1:.1f}{lines}") + _words(
        x + side, (y0 + y1) / 2 + 2, text, anchor
    )


def _line(path: str) -> str:
    return f'<path d="{path}" fill="none" stroke="#666" stroke-width=".4"/>'
