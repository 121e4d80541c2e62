"""A refit as rows: the build record, the axles, the limits and what is to be told of them."""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.job.job import Job
from platewheel.cli.refit.choice_rows import choice_limits
from platewheel.cli.refit.way_rows import (
    first_words,
    new_pieces,
    rings_trued,
    trued_words,
    way_limits,
)
from platewheel.cli.refit.welded_rows import (
    paired_by,
    running_mm,
    welded_limits,
    welded_row,
    welded_words,
)
from platewheel.cli.schema.refit import (
    AxleRecord,
    LimitSaid,
    PairedBy,
    RefitSums,
    SharedRow,
    TriedRow,
    WheelRecord,
)
from platewheel.parts.base.so_many import noun, so_many
from platewheel.parts.checks.making.weld_access import seam_gap_range_mm
from platewheel.parts.making.springback import round_force_n
from platewheel.parts.refit import drift, pairing
from platewheel.parts.refit.measured_ring import inside_diameter_mm
from platewheel.parts.refit.plan import Refit
from platewheel.parts.refit.shared_blanks import DISC_SOURCE, SEAM_SOURCE
from platewheel.parts.refit.tried_flange import TriedFlange, mean_error_mm
from platewheel.parts.wheel.flange import blank_sweep_deg, slant_radii_mm
from platewheel.parts.wheel.hub_disc import SIDES, disc_diameter_mm, discs_differ


def wheel_records(job: Job, refit: Refit) -> list[WheelRecord]:
    """Wheels by serial number: pairs by size, two to an axle, axles by wagons, spares last.

    The larger wheel stands left on odd axles and right on even ones, so that the axles of a wagon
    steer against each other.
    """
    whole = len(refit.pairing.pairs) // job.wagon.axles * job.wagon.axles
    rows: list[WheelRecord] = []
    for number, (smaller, larger) in enumerate(refit.pairing.pairs):
        left, right = (larger, smaller) if number % 2 == 0 else (smaller, larger)
        wagon = f"W{number // job.wagon.axles + 1}" if number < whole else None
        for side, place in (("left", left), ("right", right)):
            where = {"wagon": wagon, "axle": f"A{number + 1}", "side": side}
            rows.append(_record(job, refit, place, len(rows) + 1, where))
    if refit.pairing.left_over is not None:
        where = {"wagon": None, "axle": None, "side": None}
        rows.append(_record(job, refit, refit.pairing.left_over, len(rows) + 1, where))
    return rows


def _record(
    job: Job, refit: Refit, place: int, wheel: int, where: dict[str, str | None]
) -> WheelRecord:
    one = refit.fitted[place]
    ring, spec = one.measured, one.spec
    inner, outer = slant_radii_mm(spec)
    field, gauge = (disc_diameter_mm(spec, side) for side in SIDES)
    return WheelRecord.model_validate(
        {
            **where,
            "wheel": wheel,
            "ring": ring.ring,
            "outside_circumference_mm": ring.outside_circumference_mm,
            "inside_circumference_mm": ring.inside_circumference_mm,
            "largest_diameter_mm": ring.largest_diameter_mm,
            "smallest_diameter_mm": ring.smallest_diameter_mm,
            "flange_seam_mm": ring.flange_seam_mm,
            "after_welding_mm": ring.after_welding_mm,
            "flange_angle_deg": ring.flange_angle_deg,
            "wall_mm": spec.tread_thickness_mm,
            "tread_diameter_mm": spec.tread_diameter_mm,
            "inside_diameter_mm": inside_diameter_mm(spec),
            "out_of_round_mm": ring.out_of_round_mm,
            "out_of_round_limit_mm": refit.roundness.limit_mm,
            "disc_field_mm": field,
            "disc_gauge_mm": gauge,
            "disc_field_blank": one.discs[0],
            "disc_gauge_blank": one.discs[1],
            "disc_field_gap_mm": one.disc_gaps_mm[0],
            "disc_gauge_gap_mm": one.disc_gaps_mm[1],
            "flange_inner_radius_mm": inner,
            "flange_outer_radius_mm": outer,
            "flange_sweep_deg": blank_sweep_deg(spec),
            "flange_blank": one.flange,
            "flange_seam_gap_mm": one.flange_seam_mm,
            "first": first_words(one),
            "tried": _tried_row(one.tried) if one.tried else None,
            "welded": welded_row(job, ring),
        }
    )


def _tried_row(tried: TriedFlange) -> TriedRow:
    says = f"weld its seams with a root gap of {tried.root_gap_mm:.1f} mm each"
    if tried.remedy == "trim":
        says = f"trim {tried.trim_mm:.1f} mm off one end, then {says}"
    elif tried.remedy == "insert":
        first = f"trim {tried.trim_mm:.1f} mm off one end, " if tried.trim_mm > 0.05 else ""
        says = (
            f"too short: take the new blank; or {first}let in a piece {tried.insert_mm:.1f} mm "
            f"long, root gaps {tried.root_gap_mm:.1f} mm"
        )
    says += f"; next blank {tried.sweep_correction_deg:+.2f} deg on the drawn sweep"
    return TriedRow.of(tried, says=says)


def axle_records(job: Job, wheels: list[WheelRecord], by: PairedBy) -> list[AxleRecord]:
    """Differences, and how far they steer; wheels loose on the axle do not steer it."""
    rows = []
    loose = job.axle.wheels_on_axle == "loose"
    on_axles = [wheel for wheel in wheels if wheel.axle]
    for left, right in zip(on_axles[::2], on_axles[1::2], strict=True):
        sizes = [running_mm(wheel, by) for wheel in (left, right)]
        radius = drift.curve_radius_mm(job.setting.contact_spacing_mm, *sizes)
        steers = sizes[0] != sizes[1] and not loose
        after = drift.flange_after_mm(radius, job.setting.play_mm) if steers else None
        rows.append(
            AxleRecord(
                axle=left.axle or "",
                wagon=left.wagon,
                left=left.wheel,
                right=right.wheel,
                difference_mm=abs(sizes[0] - sizes[1]),
                curve_radius_m=radius / 1000 if steers else None,
                drift_mm=drift.drift_mm(radius) if steers else 0.0,
                flange_after_m=after / 1000 if after is not None else None,
            )
        )
    return rows


def shared_rows(refit: Refit) -> list[SharedRow]:
    """Each size of disc and flange, with the rings that it is for."""
    return [
        SharedRow(blank=one.part.name, size_mm=one.size_mm, rings=list(one.rings))
        for one in (*refit.discs, *refit.flanges)
    ]


def sums(job: Job, refit: Refit) -> RefitSums:
    """What sharing and pairing save."""
    sizes, listed = refit.diameters_mm, pairing.in_order(len(refit.fitted))
    flanges = sum(one.flange is not None for one in refit.fitted)
    return RefitSums(
        rings=len(sizes),
        paired_by=paired_by(refit),
        blanks_one_a_ring=(2 if discs_differ(job.wheel) else 1) * len(sizes) + flanges,
        blanks_of_own_size=refit.own_sizes,
        blanks_cut=len(refit.parts),
        new_pieces=new_pieces(refit, job.wheel.flange_segments),
        rings_trued=rings_trued(refit),
        largest_difference_listed_mm=pairing.largest_difference_mm(listed, sizes),
        largest_difference_paired_mm=pairing.largest_difference_mm(refit.pairing, sizes),
        sum_of_differences_listed_mm=pairing.sum_of_differences_mm(listed, sizes),
        sum_of_differences_paired_mm=pairing.sum_of_differences_mm(refit.pairing, sizes),
    )


def limits_said(job: Job, refit: Refit) -> list[LimitSaid]:
    """Every limit that the refit judged by, with its source."""
    gaps, seams = refit.disc_gap_range_mm, seam_gap_range_mm(job.wheel)
    uneven = refit.roundness
    rows = (
        (
            "gap on the radius, disc to ring",
            f"{gaps[0]:.2f} to {gaps[1]:.2f} mm, as near {job.wheel.fit_clearance_mm:g} as it goes",
            DISC_SOURCE,
        ),
        ("root gap of each flange seam", f"{seams[0]:g} to {seams[1]:g} mm", SEAM_SOURCE),
        (
            "largest less smallest diameter of a ring",
            f"{uneven.limit_mm:.2f} mm, or {uneven.why}: beyond it the ring is trued first",
            uneven.source,
        ),
        (
            "difference of the tread diameters on an axle",
            f"{pairing.LIMIT_MM:g} mm",
            pairing.LIMIT_SOURCE,
        ),
        ("drift over 10 m of straight track", "told, not limited", drift.SOURCE),
        *choice_limits(),
        *way_limits(refit),
        *welded_limits(job),
    )
    return [LimitSaid(what=what, limit=limit, source=source) for what, limit, source in rows]


def refit_warnings(job: Job, refit: Refit, axles: list[AxleRecord]) -> list[str]:
    """What the builder must know before cutting."""
    return [
        *_count_words(job, refit),
        *plate_words(job),
        *_wall_words(job, refit),
        *_ring_words(refit),
        *trued_words(refit),
        *_axle_words(axles),
        *welded_words(job, refit),
    ]


def _count_words(job: Job, refit: Refit) -> Iterator[str]:
    rings, axles = len(refit.fitted), len(refit.pairing.pairs)
    if rings != job.head.wheels:
        made = so_many(job.head.wheels, "wheel")
        yield f"{so_many(rings, 'ring')} measured, the job makes {made}"
    if refit.pairing.left_over is not None:
        ring = refit.fitted[refit.pairing.left_over].measured.ring
        yield f"an odd number of rings: ring {ring} is left over, a spare without an axle"
    if left := axles % job.wagon.axles:
        yield (
            f"{left} of {so_many(axles, 'axle')} {noun(left, 'is', 'are')} left over: wagons take "
            f"{job.wagon.axles}"
        )
    if job.extras or job.gauges.any_wanted:
        yield "parts of your own ([[extra]]), gauges and tread strips are not cut again"


def plate_words(job: Job) -> Iterator[str]:
    """The plate that strips were cut from is no whole one any more, unless the job says so."""
    wheel = job.wheel
    thick = wheel.tread_thickness_mm
    if wheel.tread_from != "sheet" or job.rack is not None:
        return
    late = (wheel.disc_thickness_mm, wheel.flange_thickness_mm)
    if thick in late and not any(piece.thickness_mm == thick for piece in job.offcuts):
        yield (
            f"the strips came off plate of {thick:g} mm, and this plan takes whole plates: write "
            "what is left of it under [[offcut]] and refit again, or lay the plan on from the last "
            "strip's cut, if there is room"
        )


def _wall_words(job: Job, refit: Refit) -> Iterator[str]:
    rings = [one.measured for one in refit.fitted]
    bare = [r for r in rings if r.wall_mm is None and r.inside_circumference_mm is None]
    if bare:
        yield (
            f"{len(bare)} of {so_many(len(rings), 'ring')} without wall or inside circumference: "
            f"the drawn wall of {job.wheel.tread_thickness_mm:g} mm is taken; what it is thicker "
            "comes off the disc's gap"
        )


def _ring_words(refit: Refit) -> Iterator[str]:
    for one in refit.fitted:
        found, limit = one.measured.out_of_round_mm, refit.roundness
        if found is not None and limit.passed_by(found):
            yield (
                f"ring {one.measured.ring}: out of round by {found:.2f} mm, at most "
                f"{limit.limit_mm:.2f} mm or {limit.why}: true it before tacking, "
                f"{round_force_n(one.spec, found) / 1000:.1f} kN across its largest diameter press "
                "it round while held"
            )
    tried = [one.tried for one in refit.fitted if one.tried]
    if tried:
        mean = mean_error_mm(tried)
        word = "short" if mean > 0 else "long"
        what = (
            "the new blanks are corrected for it"
            if refit.flanges_longer_mm
            else "the new blanks are not corrected for it: look at kerf and rolling first, or "
            "refit again with --correct-flanges"
        )
        yield (
            f"{so_many(len(tried), 'flange')} tried on: apart from the rings' own size they "
            f"came out {abs(mean):.1f} mm {word} all round in the mean; {what}"
        )
    elif refit.corrected:
        yield "--correct-flanges changes nothing: no ring has a flange_seam_mm"


def _axle_words(axles: list[AxleRecord]) -> Iterator[str]:
    for axle in axles:
        if axle.difference_mm > pairing.LIMIT_MM + 1e-9:
            yield (
                f"axle {axle.axle}: tread diameters differ by {axle.difference_mm:.2f} mm, at most "
                f"{pairing.LIMIT_MM:g} mm: turn or grind the larger, or roll another ring"
            )
