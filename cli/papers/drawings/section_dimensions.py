"""Sizes along the axle, notes and welding symbols of the section drawing."""

from __future__ import annotations

import math

from platewheel.cli.papers.drawings.dimension_lines import (
    XY,
    Beside,
    angle,
    between,
    leader,
    line,
    text_width,
)
from platewheel.cli.papers.drawings.section_layout import Frame, Item, outside_width
from platewheel.cli.papers.drawings.weld_marks import PlacedMark, weld_marks
from platewheel.cli.papers.drawings.weld_symbols import weld_symbol
from platewheel.parts.base.so_many import so_many
from platewheel.parts.base.units import Units, length_words
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.wheel.flange import flange_section
from platewheel.parts.wheel.hub_disc import disc_diameter_mm, disc_z_mm, discs_differ
from platewheel.parts.wheel.hub_tube import tube_z_mm
from platewheel.parts.wheel.own_disc import openings, openings_reach_mm
from platewheel.parts.wheel.spec import WheelSpec

DIA = "Ø"
LEAST_SHOWN_MM = 0.05  # shorter steps would read 0: a flush tube
ROOMY = 12.0  # letters between the discs, from which arrows of other rows cannot meet


def left_stack(spec: WheelSpec, f: Frame, units: Units, disc: Blank | None = None) -> list[Item]:
    """Beside the field side: field disc's beads, fit gap, vents, inset, how far the tube stands."""
    s, edge = f.size, f.z0 - 1.5 * f.size
    low, high = disc_z_mm(spec, "field")
    bore = spec.bore_radius_mm(low)
    items = [
        _weld(mark, f, left=True)
        for mark in weld_marks(spec, units)
        if mark.mark.name.endswith("-field")
    ]
    if spec.fit_clearance_mm:
        above = -bore + 5 * s  # the vents' leader, below it, then does not cross its own
        if spec.vent_count:
            above = min(above, -spec.vent_circle_mm / 2 + 2.4 * s)
        gap = f"fit gap {length_words(spec.fit_clearance_mm, units, 2)}"
        at = (high - 0.2 * spec.disc_thickness_mm, -bore + spec.fit_clearance_mm / 2)
        items.append(_note("fit_clearance_mm", at, edge, gap, above, s))
    if spec.vent_count:
        size, circle = (
            f"{DIA}{length_words(v, units)}" for v in (spec.vent_diameter_mm, spec.vent_circle_mm)
        )
        text = f"{so_many(spec.vent_count, 'vent')} {size}\non {circle}, both discs"
        middle = -spec.vent_circle_mm / 2
        at = (low, middle + spec.vent_diameter_mm / 4)
        items.append(_note("vent_circle_mm", at, edge, text, middle + 2.5 * s, s))
    if disc is not None:
        items.append(_own_disc(spec, disc, edge, s, units))
    row = -_rows_from(spec, bore)
    inset, spacing = spec.disc_field_inset_mm, _spacing(spec)
    if spacing[1] - spacing[0] < ROOMY * s:
        items.append(_row("disc_spacing_mm", spacing, row + 2.2 * s, s, units))
    if inset:
        corner = (0.0, -spec.bore_radius_mm(0.0))
        items.append(_row("disc_field_inset_mm", (0.0, inset), row, s, units, corner=corner))
    start = tube_z_mm(spec)[0]
    if spec.has_tube and low - start > LEAST_SHOWN_MM:
        want = -_hub_radius(spec) - 5 * s
        corner = (start, -_hub_radius(spec))
        items.append(_row("tube_stands_out_mm", (start, low), want, s, units, corner=corner))
    return items


def _own_disc(spec: WheelSpec, disc: Blank, edge: float, s: float, units: Units) -> Item:
    """That the disc is one of the user's own, and between which circles it is cut open."""
    low, high = disc_z_mm(spec, "field")
    reach = openings_reach_mm(disc)
    text = "disc by its own drawing"
    middle = -(spec.hub_hole_diameter_mm / 2 + spec.bore_radius_mm(low)) / 2
    if reach:
        count, ends = len(openings(disc)), (f"{DIA}{length_words(2 * r, units)}" for r in reach)
        text += f",\n{count} openings {' to '.join(ends)}"
        middle = -sum(reach) / 2
    return _note("own_disc", ((low + high) / 2, middle), edge, text, middle + 2.5 * s, s)


def right_stack(spec: WheelSpec, f: Frame, units: Units) -> list[Item]:
    """Beside the gauge side: root and seam, gauge disc's beads, plate thickness, inset."""
    s = f.size
    low, high = disc_z_mm(spec, "gauge")
    marks = [m for m in weld_marks(spec, units) if not m.mark.name.endswith(("-field", "-tread"))]
    items = [_weld(mark, f, left=False) for mark in marks]
    row = -_rows_from(spec, spec.bore_radius_mm(high))
    width, inset = spec.tread_width_mm, spec.disc_gauge_inset_mm
    if inset:
        corner = (width, -spec.bore_radius_mm(width))
        items.append(
            _row("disc_gauge_inset_mm", (high, width), row, s, units, "after", corner=corner)
        )
    if discs_differ(spec):
        rim = disc_diameter_mm(spec, "gauge") / 2
        text = f"gauge disc {DIA}{length_words(2 * rim, units)}"
        at, edge = (high - 0.1 * (high - low), -rim + 0.1 * s), f.z1 + 1.5 * s
        want = -rim + 6 * s
        items.append(_note("gauge_disc_diameter_mm", at, edge, text, want, s, left=False))
    two = "2 × "
    items.append(_row("disc_thickness_mm", (low, high), row - 2.4 * s, s, units, "after", head=two))
    return items


def along_axle(spec: WheelSpec, f: Frame, units: Units) -> tuple[str, str]:
    """Widths above, clear spacing inside, tube length below: witness lines and dimensions."""
    s, width = f.size, spec.tread_width_mm
    tip = flange_section(spec)[1]
    overall = max(z for _, z in flange_section(spec))
    first = -f.tip - rows_above(spec, f, units)
    second = first - 2.2 * s
    over = [between("tread_width_mm", (0, first), (width, first), length_words(width, units), s)]
    under = [line([(0, -spec.outside_radius_mm(0)), (0, second - 0.6 * s)], s)]
    under.append(line([(width, -spec.tread_radius_mm - 0.2 * s), (width, first - 0.6 * s)], s))
    far = max(flange_section(spec), key=lambda corner: corner[1])
    under.append(line([(overall, -far[0]), (overall, second - 0.6 * s)], s))
    text = length_words(overall, units)
    over.append(between("over_all_width_mm", (0, second), (overall, second), text, s))
    low, high = _spacing(spec)
    if high - low >= ROOMY * s:
        y, text = -_rows_from(spec, spec.bore_radius_mm(low)), length_words(high - low, units)
        over.append(between("disc_spacing_mm", (low, y), (high, y), text, s))
    if spec.has_tube:
        ends, y = tube_z_mm(spec), 3.2 * s
        bore = -spec.hub_bore_mm / 2
        under += [line([(z, bore), (z, y + 0.6 * s)], s) for z in ends]
        text = length_words(ends[1] - ends[0], units)
        over.append(between("hub_tube_length_mm", (ends[0], y), (ends[1], y), text, s))
    over.append(_flange_plate(spec, f, units))
    over.append(
        line(
            [
                (tip[1], -f.tip),
                (
                    tip[1] + 4 * s * math.cos(spec.flange_angle),
                    -f.tip - 4 * s * math.sin(spec.flange_angle),
                ),
            ],
            s,
        )
    )
    over.append(
        angle(
            "flange_angle_deg",
            (tip[1], -f.tip),
            3.2 * s,
            spec.flange_angle_deg,
            f"{round(spec.flange_angle_deg, 1):g}°",
            s,
        )
    )
    return "".join(under), "".join(over)


def tread_seam(spec: WheelSpec, f: Frame, units: Units) -> tuple[float, str]:
    """How far left the symbol of the ring's own seam reaches, above the field side, and the
    symbol; empty for a pipe."""
    plate = outside_width(length_words(spec.flange_thickness_mm, units), f.size)
    clear = spec.tread_width_mm - plate * math.sin(spec.flange_angle)  # of the flange's thickness
    joint = (min(f.z0, clear) - f.size, -f.tip - 1.6 * f.size)
    for placed in weld_marks(spec, units):
        if placed.mark.name == "weld-seam-tread":
            tip = (placed.at[1], -placed.at[0])
            symbol = weld_symbol(placed.mark, tip, joint, f.size, left=True)
            return joint[0] - placed.mark.length(f.size), symbol
    return joint[0], ""


def _flange_plate(spec: WheelSpec, f: Frame, units: Units) -> str:
    """Thickness square to the plate, a third of the way up, its text on the rail side."""
    root, tip = flange_section(spec)[:2]
    share = 0.35
    z, r = (root[i] + share * (tip[i] - root[i]) for i in (1, 0))
    t, delta = spec.flange_thickness_mm, spec.flange_angle
    back = (z + t * math.sin(delta), -(r - t * math.cos(delta)))
    text = length_words(t, units)
    return between("flange_thickness_mm", (z, -r), back, text, f.size, "before")


def rows_above(spec: WheelSpec, f: Frame, units: Units) -> float:
    """How far above the flange tip the first row stands: clear of the flange's own thickness."""
    text = outside_width(length_words(spec.flange_thickness_mm, units), f.size)
    rise = text * math.cos(spec.flange_angle) - 0.65 * spec.flange_depth_mm
    return max(4.0 * f.size, rise + 1.5 * f.size)


def _weld(placed: PlacedMark, f: Frame, left: bool) -> Item:
    s, mark = f.size, placed.mark
    joint_x = f.z0 - 1.5 * s if left else f.z1 + 1.5 * s
    tip = (placed.at[1], -placed.at[0])
    lean = -3.0 if mark.name.startswith("weld-tube") else 2.5 if "seam" not in mark.name else 0.0

    def draw(y: float) -> str:
        return weld_symbol(mark, tip, (joint_x, y), s, left)

    height = 4.0 if mark.other else 2.6
    return Item(tip[1] + lean * s, height * s, mark.length(s), draw)


def _note(
    key: str, at: XY, edge: float, text: str, want: float, s: float, left: bool = True
) -> Item:
    def draw(y: float) -> str:
        return leader(key, at, (edge, y), text, s, left)

    rows = text.split("\n")
    width = max(text_width(row, s) for row in rows)
    return Item(want, (0.5 + 1.2 * len(rows)) * s, width + 2 * s, draw)


def _row(
    key: str,
    ends: tuple[float, float],
    want: float,
    s: float,
    units: Units,
    beside: Beside = "before",
    *,
    head: str = "",
    corner: XY | None = None,
) -> Item:
    """A size along the axle; `corner` is where a witness line comes down from, if it needs one."""
    text = head + length_words(ends[1] - ends[0], units)

    def draw(y: float) -> str:
        witness = ""
        if corner:
            past = y + math.copysign(0.6 * s, y - corner[1])
            witness = line([corner, (corner[0], past)], s)
        return witness + between(key, (ends[0], y), (ends[1], y), text, s, beside)

    return Item(want, 1.9 * s, outside_width(text, s), draw)


def _spacing(spec: WheelSpec) -> tuple[float, float]:
    """The discs' inner faces."""
    return disc_z_mm(spec, "field")[1], disc_z_mm(spec, "gauge")[0]


def _hub_radius(spec: WheelSpec) -> float:
    return (spec.hub_tube_outside_mm if spec.has_tube else spec.hub_bore_mm) / 2


def _rows_from(spec: WheelSpec, bore: float) -> float:
    """Radius of the axial rows: between hub and vents or rim, where the discs are plain."""
    top = spec.vent_circle_mm / 2 - spec.vent_diameter_mm / 2 if spec.vent_count else bore
    return 0.45 * _hub_radius(spec) + 0.55 * top
