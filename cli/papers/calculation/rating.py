"""The load rating in the calculation: its method, every place that may crack, Miner's sum block by
block, and what each limit allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from platewheel.cli.papers.calculation.equation import equation
from platewheel.cli.papers.calculation.terms import digits
from platewheel.parts.base.units import Units
from platewheel.parts.loads.wheel_load import flange_push_n, side_force_n, wheel_load_n
from platewheel.parts.rating.assess import Assessment
from platewheel.parts.rating.detail_class import (
    FILLET_ROOT,
    SHEAR,
    WHOLE_ROOT,
    DetailClass,
    details,
)
from platewheel.parts.rating.endurance import Endurance
from platewheel.parts.rating.fatigue import CATEGORY_CYCLES, IIW_KNEE_CYCLES, knee_n_mm2
from platewheel.parts.rating.miner_sum import BlockSum, range_for_one_n, sum_by_block, whole_sum
from platewheel.parts.rating.rate import Rating
from platewheel.parts.rating.vent_edge import CUT_EDGE, CUT_EDGE_SOURCE
from platewheel.parts.setting.least_wheel import losses
from platewheel.parts.setting.setting import Setting

METHOD = (
    "The welded section (ring, discs, hub tube, flange, beads) is cut into triangles of second "
    "order, {size}, and turned about the axle: displacements run round the wheel as a "
    "Fourier series, one plane system of equations a harmonic (semi-analytical finite elements; "
    "Zienkiewicz and Taylor, The Finite Element Method). Linear elastic, E = 210000 N/mm2, "
    "Poisson's ratio 0.3; the bore is held by the axle. Unit loads: 1 N down on the patch of "
    "contact at several places across the tread, and 1 N of push along the axle on the flange. "
    "Each place's stress over one turn follows from both, in proportion to the loads of the way.",
    "Plates are taken as thin as their standard lets them be, less rust (table below).",
    "The analysis is held against textbook cases (thick rings, plates; "
    "tests/published/test_semi_analytical_elements) and against the same section in "
    "three-dimensional ten-node elements (tests/bench/solid_elements): without vents the largest "
    "stresses in ring and gauge disc of the demo wheel agree within 1 %, deflections within 3 %. "
    "Vents come in by factors from a study of 18 wheels in three dimensions, none of them rated "
    "above it by more than 5 %.",
    "Weld toes: hot-spot stress at 0.4 t and 1.0 t (1.67 and -0.67 of them). Roots: forces of the "
    "bead over its throat. Vents, seams and slip as the table of classes says. Stress within 0.4 t "
    "of a sharp corner is not read as strength at rest; the contact itself is judged by Hertz.",
    "Weld roots, full range, told beside: the bending that presses a root shut is counted there as "
    "if it pulled. The rating is not judged by it, as EN 1993-1-9, table 8.5, judges a root by the "
    "force over its throat (the limit weld roots), and EN 1993-1-8, 4.12, counts the bending of a "
    "one-sided fillet where it opens the root. A weld that is not stress-relieved has no such "
    "relief in EN 1993-1-9, 7.2.1: where this limit is below the design load, agree which of them "
    "is to govern before you sign.",
)
STRIKES = (
    "A strike falls on one angle of the round, any of them as likely: the turn then goes from the "
    "least stress of rolling to the struck stress there. The table has the greatest of these "
    "ranges; D of joints is the sum over all angles, each with its own range."
)
NOT_COVERED = (
    "residual stress of welding and rolling, beyond what the classes hold",
    "a ring out of round beyond the gap that its discs bridge",
    "poor welds: lack of fusion, undercut, cracks; welds are taken as sound and as drawn",
    "wear beyond the allowance, rust beyond the years stated",
    "loads beyond the spectrum: derailment, collision, overload, drops",
    "brittle fracture at low temperature, fire, fatigue in corrosion beyond the rust taken off",
)


def rating_data(setting: Setting, found: Assessment, units: Units) -> dict[str, Any]:
    """What the template reads of it."""
    states = [one for one in (found.new, found.worn) if one is not None]
    if found.worn is found.new:
        states = states[:1]
    crack, mesh = found.life_ends, found.response.mesh
    least, most = mesh.sides_mm
    size = f"sides of {least:.2g} to {most:.2g} mm, {len(mesh.triangles)} of them"
    return {
        "method": [text.format(size=size) for text in METHOD],
        "not_covered": list(NOT_COVERED),
        "plates": [
            [
                one.kind.title,
                digits(one.thickness_mm),
                digits(one.tolerance_mm),
                digits(one.least_mm),
                one.standard,
            ]
            for one in losses(setting)
        ],
        "classes": _classes(setting),
        "loads": _design(setting),
        "states": [_state(setting, one) for one in states],
        "miner": [] if crack is None else _miner(setting, crack, units),
        "curve": "" if crack is None else _curve(setting, crack),
        "strikes": STRIKES,
        "sums": [] if crack is None else _sums(setting, found, crack, units),
        "where": ""
        if crack is None
        else f"{crack.detail.name}: {crack.detail.where}, FAT {crack.detail.fat_n_mm2:g}",
    }


def told_beside(setting: Setting, found: Assessment) -> list[str]:
    """Limits by which the rating is not judged and that lie below the design load, new and worn."""
    design, states = wheel_load_n(setting), {"new": found.new, "worn": found.worn}
    return [
        f"{limit.name} allow {limit.load_n:.0f} N, wheel {state}: less than the design load of "
        f"{design:.0f} N"
        for state, rating in states.items()
        if rating is not None
        for limit in rating.beside
        if limit.load_n < design
    ]


def sources(setting: Setting) -> Iterator[tuple[str, str]]:
    """Of the classes, each with what it is of."""
    for _, one in _judged_by(setting):
        yield f"class FAT {one.fat_n_mm2:g}", one.source


def _judged_by(setting: Setting) -> Iterator[tuple[str, DetailClass]]:
    """Every weld with each of its classes, those that are told beside too; vents and slip."""
    yield from details(setting.wheel)
    if any(one is FILLET_ROOT for _, one in details(setting.wheel)):
        yield "weld roots, full range (told beside)", WHOLE_ROOT
    if setting.wheel.vent_count:
        yield (
            "edges of the vents",
            DetailClass(CUT_EDGE[setting.process], "along the edge, whole range", CUT_EDGE_SOURCE),
        )
    if setting.axle.wheels_on_axle != "loose":
        yield "rim and tube beads, slip in curves", SHEAR


def _classes(setting: Setting) -> list[list[str]]:
    """A row a class, with all welds that are judged by it."""
    welds: dict[DetailClass, list[str]] = {}
    for weld, one in _judged_by(setting):
        welds.setdefault(one, []).append(weld)
    return [
        [", ".join(names), f"FAT {one.fat_n_mm2:g}", one.stress, one.source]
        for one, names in welds.items()
    ]


def _design(setting: Setting) -> list[list[str]]:
    return [
        ["Q", digits(wheel_load_n(setting)), "design wheel load, down"],
        [
            "Y",
            digits(side_force_n(setting)),
            "of the push to the axle: all places but the flange's",
        ],
        ["Y_f", digits(flange_push_n(setting)), "push on the flange: the flange's own places"],
    ]


def _state(setting: Setting, rating: Rating) -> dict[str, Any]:
    """New or worn: every limit, those of fatigue with their stresses."""
    lasting = {one.detail.name: one for one in rating.lasting}
    rows = []
    for limit in rating.biting:
        one = lasting.get(limit.name)
        down, across = range_for_one_n(one.detail) if one is not None else (None, None)
        rows.append(
            [
                limit.name + ("" if limit.judged else " (told beside)"),
                limit.where,
                limit.by,
                "" if down is None else digits(down),
                "" if across is None else digits(across),
                "" if limit.damage is None else digits(limit.damage),
                f"{limit.load_n:.0f}",
            ]
        )
    return {
        "state": f"worn by {rating.worn_mm:g} mm" if rating.worn_mm else "new",
        "rated": f"{rating.load_n:.1f} N: {rating.governs.name}, {rating.governs.where}",
        "rows": rows,
    }


def _miner(setting: Setting, crack: Endurance, units: Units) -> list[list[str]]:
    """A row a block: the spectrum, and what it does to the place that cracks first."""
    return [_row(k, one, setting, crack) for k, one in enumerate(sum_by_block(crack, setting), 1)]


def _row(k: int, one: BlockSum, setting: Setting, crack: Endurance) -> list[str]:
    block, pushed = one.block, crack.detail.feels_push
    return [
        str(k),
        block.where,
        block.state,
        f"{block.load_n:.0f}",
        f"{block.struck_n:.0f}",
        f"{block.push_n if pushed else block.side_n:.0f}",
        digits(one.turns),
        digits(one.range_n_mm2),
        digits(one.bears),
        digits(one.damage),
        digits(one.strikes),
        digits(one.most_range_n_mm2),
        digits(one.strike_damage),
    ]


def _sums(
    setting: Setting, found: Assessment, crack: Endurance, units: Units
) -> list[dict[str, str]]:
    """The curve, the sum and the life as equations."""
    fat = crack.detail.fat_n_mm2
    lines = []
    if not crack.detail.in_shear:
        curve = {"FAT": fat, "N_class": CATEGORY_CYCLES, "N_knee": IIW_KNEE_CYCLES}
        knee = knee_n_mm2(fat)
        how = "{FAT} × ({N_class} / {N_knee}) ^ (1 / 3)"
        lines.append(equation("Δσ_knee", how, curve, knee, "N/mm2", units))
    rolling, struck, whole = whole_sum(sum_by_block(crack, setting))
    parts = {"D_rolling": rolling, "D_joints": struck}
    lines.append(equation("D", "{D_rolling} + {D_joints}", parts, whole, "", units))
    use = setting.use
    life = {"km_per_year": use.km_per_year, "years": use.years, "D": whole}
    if whole:
        how = "{km_per_year} × {years} / {D}"
        lines.append(equation("life", how, life, found.life_km, "km", units))
    design = {"share": crack.share, "Q": wheel_load_n(setting)}
    lines.append(
        equation("allowed", "{share} × {Q}", design, crack.limit(design["Q"]).load_n, "N", units)
    )
    return lines


def _curve(setting: Setting, crack: Endurance) -> str:
    """How many turns a range bears, and how the rated load follows."""
    bears = "10000000 × (Δσ_knee / (γ × Δσ)) ^ 3 above the knee, ^ 5 below it"
    if crack.detail.in_shear:
        bears = "2000000 × (FAT / (γ × Δσ)) ^ 5"
    return (
        f"N = {bears}, with the partial factor γ = {digits(setting.fatigue_factor)} "
        f'(use.consequence = "{setting.use.consequence}"). The share is that factor on all loads '
        "of the life at which D is 1, found by repetition."
    )
