"""The tables of the refit sheet: blanks, fits, flanges tried on, axles, what was measured.

Their sizes are bare: the page says that they are mm, or inches with mm beside.
"""

from __future__ import annotations

from collections.abc import Iterator

from platewheel.cli.refit.welded_rows import running_mm
from platewheel.cli.schema.refit import AxleRecord, PairedBy, RefitReport, WheelRecord
from platewheel.cli.schema.report import BlankRow
from platewheel.cli.words.phrases import Name, Phrase, Sentence, listed, phrase
from platewheel.cli.words.table import Cells, Column, Row, Table, table
from platewheel.cli.words.values import Count, Length, Quantity


def _size(mm: float, places: int = 2) -> Length:
    """mm, which the fits need to 0.1 or finer, or inches with those beside."""
    return Length(mm, f".{places}f", beside="number")


def _tenths(mm: float | None) -> Length | None:
    """The same to 0.1; nothing for what was not measured."""
    return None if mm is None else _size(mm, 1)


def _number(key: str, head: str) -> Column:
    return Column(key, head, Length, "number", bare=True)


def blanks_table(report: RefitReport) -> Table:
    """Blanks to cut, each for several rings."""
    shared = {row.blank: row for row in report.shared}
    columns = (
        Column("blank", "Blank", Name),
        Column("count", "Cut", Count, "number"),
        Column("plate", "Plate", Length, "number"),
        Column("size", "Size", Phrase, bare=True),
        Column("rings", "For rings", Name),
        Column("done", "Done", Name, "box"),
    )
    return table(
        columns,
        (
            {
                "blank": Name(b.name),
                "count": Count(b.count),
                "plate": Length(b.thickness_mm, "g", "rule"),
                "size": _sizes(b, shared[b.name].size_mm),
                "rings": Name(", ".join(shared[b.name].rings)),
                "done": None,
            }
            for b in report.blanks
        ),
    )


def _sizes(blank: BlankRow, size_mm: float) -> Phrase:
    if blank.diameter_mm is not None:
        return phrase("diameter ", _said(blank.diameter_mm))
    return phrase(
        "radii ",
        _said(blank.inner_radius_mm),
        " and ",
        _said(blank.outer_radius_mm),
        f", sweep {blank.sweep_deg:.2f} deg (for a tread of ",
        _said(size_mm),
        ")",
    )


def _said(mm: float | None) -> Length | str:
    return _tenths(mm) or ""


def fits_table(report: RefitReport) -> Table:
    """In the order of the ring numbers, as the rings are taken from the heap."""
    two = any(w.disc_field_blank != w.disc_gauge_blank for w in report.wheels)
    columns = (
        Column("ring", "Ring", Name),
        Column("wheel", "Stamp wheel no.", Count, "number"),
        Column("field", "Field disc" if two else "Both discs", Name, "name"),
        _number("field_gap", "Gap all round"),
        Column("gauge", "Gauge disc", Name, "name"),
        _number("gauge_gap", "Gap all round"),
        Column("flange", "Flange", Name, "name"),
        _number("root_gap", "Root gap, each seam"),
        Column("first", "First", Sentence),
        Column("tacked", "Tacked", Name, "box"),
    )
    ordered = sorted(report.wheels, key=lambda w: (len(w.ring), w.ring))
    rows: Iterator[Cells] = (
        {
            "ring": Name(w.ring),
            "wheel": Count(w.wheel),
            "field": Name(w.disc_field_blank),
            "field_gap": _size(w.disc_field_gap_mm),
            "gauge": Name(w.disc_gauge_blank),
            "gauge_gap": _size(w.disc_gauge_gap_mm),
            "flange": Name(w.flange_blank or "as tried on"),
            "root_gap": _tenths(w.flange_seam_gap_mm),
            "first": Sentence(w.first or ""),
            "tacked": None,
        }
        for w in ordered
    )
    whole = table(columns, rows)
    keys = [column.key for column in columns if two or not column.key.startswith("gauge")]
    if all(w.first is None for w in report.wheels):
        keys.remove("first")
    return whole.only(*keys)


def tried_table(report: RefitReport) -> Table:
    """Flanges that were tried on; no row where none was."""
    columns = (
        Column("ring", "Ring", Name),
        Column("seam", "Seam found", Phrase, "number", bare=True),
        Column("do", "What to do", Sentence),
        Column("of_ring", "of it: ring", Phrase, "number", bare=True),
        Column("of_blank", "of it: blank", Phrase, "number", bare=True),
    )
    return table(
        columns,
        (
            {
                "ring": Name(w.ring),
                "seam": _signed(w.flange_seam_mm),
                "do": Sentence(w.tried.says),
                "of_ring": _signed(w.tried.from_ring_mm),
                "of_blank": _signed(w.tried.from_blank_mm),
            }
            for w in report.wheels
            if w.tried and w.flange_seam_mm is not None
        ),
    )


def _signed(mm: float) -> Phrase:
    return phrase("+" if mm >= 0 else "", _size(mm, 1))


def axles_table(report: RefitReport) -> Table:
    """Wheels on axles, axles on wagons; spare wheels last."""
    columns = (
        Column("wagon", "Wagon", Name),
        Column("axle", "Axle", Name),
        Column("left", "Left wheel", Count, "number"),
        Column("left_ring", "ring", Name),
        _number("left_tread", "tread dia"),
        Column("right", "Right wheel", Count, "number"),
        Column("right_ring", "ring", Name),
        _number("right_tread", "tread dia"),
        _number("difference", "Differ by"),
        Column("radius", "Rolls in a curve of", Quantity, "number"),
        _number("drift", "Drift in 10 m"),
        Column("after", "Flange touches after", Quantity, "number"),
        Column("mounted", "Mounted", Name, "box"),
    )
    blank = dict.fromkeys(column.key for column in columns)
    wheels = {wheel.wheel: wheel for wheel in report.wheels}
    rows, by = [], report.sums.paired_by
    for i, axle in enumerate(report.axles):
        starts = i == 0 or axle.wagon != report.axles[i - 1].wagon
        rows.append(Row({**blank, **_axle(axle, wheels, by)}, "first" if starts else ""))
    for wheel in report.wheels:
        if wheel.axle is None:
            rows.append(Row({**blank, "wagon": Name("spare"), **_on(wheel, "left", by)}, "first"))
    return Table(columns, tuple(rows))


def _on(wheel: WheelRecord, side: str, by: PairedBy) -> Cells:
    return {
        side: Count(wheel.wheel),
        f"{side}_ring": Name(wheel.ring),
        f"{side}_tread": _size(running_mm(wheel, by)),
    }


def _axle(axle: AxleRecord, wheels: dict[int, WheelRecord], by: PairedBy) -> Cells:
    radius, after = axle.curve_radius_m, axle.flange_after_m
    return {
        "wagon": Name(axle.wagon or "spare"),
        "axle": Name(axle.axle),
        **_on(wheels[axle.left], "left", by),
        **_on(wheels[axle.right], "right", by),
        "difference": _size(axle.difference_mm),
        "radius": Name("straight") if radius is None else Quantity(radius, ".0f", "m"),
        "drift": _size(axle.drift_mm, 0),
        "after": None if after is None else Quantity(after, ".1f", "m"),
    }


def measured_table(report: RefitReport) -> Table:
    """What tape and calliper said of each ring, and the blanks that would fit it alone."""
    columns = (
        Column("wheel", "Wheel", Count, "number"),
        Column("ring", "Ring", Name),
        _number("outside", "Tape outside"),
        _number("inside", "Tape inside"),
        _number("tread", "Tread dia"),
        _number("wall", "Wall"),
        _number("bore", "Inside dia"),
        _number("out_of_round", "Out of round"),
        _number("limit", "at most"),
        Column("own", "Own disc dia; own flange radii, sweep", Phrase, "number", bare=True),
    )
    return table(
        columns,
        (
            {
                "wheel": Count(w.wheel),
                "ring": Name(w.ring),
                "outside": _tenths(w.outside_circumference_mm),
                "inside": _tenths(w.inside_circumference_mm),
                "tread": _size(w.tread_diameter_mm),
                "wall": _size(w.wall_mm),
                "bore": _size(w.inside_diameter_mm),
                "out_of_round": _tenths(w.out_of_round_mm),
                "limit": _tenths(w.out_of_round_limit_mm),
                "own": _own(w),
            }
            for w in report.wheels
        ),
    )


def _own(w: WheelRecord) -> Phrase:
    two = abs(w.disc_gauge_mm - w.disc_field_mm) > 0.05
    discs = (w.disc_field_mm, w.disc_gauge_mm) if two else (w.disc_field_mm,)
    radii = (w.flange_inner_radius_mm, w.flange_outer_radius_mm)
    own_discs, own_radii = ([_size(mm, 1) for mm in sizes] for sizes in (discs, radii))
    sweep = f"{w.flange_sweep_deg:.2f} deg"
    return phrase(listed(own_discs, " / "), "; ", listed(own_radii), f", {sweep}")
