"""The job file: TOML read, checked section by section, and all its faults told at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from platewheel.cli.job.gauge_faults import plate_faults, unasked_faults
from platewheel.cli.job.own_parts import DrawnDisc, drawn_disc, own_parts, require_all_read
from platewheel.cli.job.stray_keys import key_faults, section_faults
from platewheel.cli.job.toml_file import read_toml
from platewheel.cli.job.toml_lines import Places
from platewheel.cli.job.usual import odd_units
from platewheel.cli.ledger.rack import Rack, rack_of
from platewheel.cli.schema.job_head import JobHead
from platewheel.cli.schema.job_sections import KINDS, OPTIONAL, REPEATED, SINGLE, UNASKED
from platewheel.nesting.cutting.cut_speed import CutSpeed, speed_faults
from platewheel.nesting.drawings.all_lines import (
    Copies,
    copies_of,
    copies_of_disc,
    too_many_lines,
)
from platewheel.nesting.drawings.disc import DiscDrawing
from platewheel.nesting.drawings.extra import Extra, ExtraPart, extra_parts
from platewheel.nesting.drawings.layers import DrawingLayer
from platewheel.nesting.files.file_layers import FileLayer, file_layer_faults
from platewheel.nesting.stock.piece_name import as_called
from platewheel.nesting.stock.round_bar import Round
from platewheel.nesting.stock.stock import Bar, Cutting, Offcut, Pipe, Stock
from platewheel.nesting.templates.paper import Paper
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.plain_values import odd_values
from platewheel.parts.base.spec_model import Spec
from platewheel.parts.gauges.gauge import Gauge
from platewheel.parts.gauges.spec import GaugesSpec
from platewheel.parts.gauges.wanted import NAMES as GAUGE_NAMES
from platewheel.parts.gauges.wanted import wanted_gauges
from platewheel.parts.geometry.blank import Blank
from platewheel.parts.setting.axle import AxleSpec
from platewheel.parts.setting.costs import Costs
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.setting import Setting
from platewheel.parts.setting.shop import ShopSpec
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.use import UseSpec
from platewheel.parts.setting.wagon import WagonSpec
from platewheel.parts.setting.way import WaySpec, curve_faults, way_faults
from platewheel.parts.setting.wear import wear_faults
from platewheel.parts.wheel.kinds import PART_NAMES
from platewheel.parts.wheel.spec import WheelSpec
from platewheel.parts.wheelset.assembly import wheelset_faults

HERE = Path()
# no part of the user's own has these
RESERVED = frozenset({*PART_NAMES, *GAUGE_NAMES, "weld", "wheel"})
# section -> where Job has it, by its own name where it is not here
FIELDS = {"job": "head", "offcut": "offcuts", "bar": "bars", "pipe": "pipes", "round": "rounds"}
FIELDS |= {"cut_speed": "cut_speeds", "extra": "extras"}
FIELDS |= {"drawing_layer": "drawing_layers", "file_layer": "file_layers"}


@dataclass(frozen=True)
class Job:
    """A job file that has been found good."""

    head: JobHead
    track: TrackSpec
    wagon: WagonSpec
    wheel: WheelSpec
    finish: FinishSpec
    use: UseSpec
    axle: AxleSpec
    shop: ShopSpec
    cutting: Cutting
    paper: Paper
    costs: Costs
    gauges: GaugesSpec
    stock: tuple[Stock, ...]
    offcuts: tuple[Offcut, ...]
    bars: tuple[Bar, ...]
    pipes: tuple[Pipe, ...]
    cut_speeds: tuple[CutSpeed, ...]
    extras: tuple[ExtraPart, ...] = ()
    drawing_layers: tuple[DrawingLayer, ...] = ()
    file_layers: tuple[FileLayer, ...] = ()
    rounds: tuple[Round, ...] = ()
    way: tuple[WaySpec, ...] = ()
    rack: Rack | None = None  # [job] ledger: its pieces are among the rows above
    disc: DiscDrawing | None = None
    drawn_disc: DrawnDisc | None = None  # [disc], its drawing read
    own_disc: Blank | None = None  # of [disc] or a script, in place of both hub discs
    has_axle: bool = False  # [axle] is in the file: the wheelset is part of the job
    places: Places = field(default_factory=Places, compare=False, repr=False)  # in its file

    @property
    def setting(self) -> Setting:
        """What the checks ask about."""
        return Setting(
            wheel=self.wheel,
            track=self.track,
            wagon=self.wagon,
            finish=self.finish,
            use=self.use,
            axle=self.axle,
            shop=self.shop,
            process=self.cutting.process,
            way=self.way,
            disc=self.own_disc,
        )

    @property
    def has_drawings(self) -> bool:
        """Whether it has a drawing that a [[drawing_layer]] row could be of."""
        return bool(self.extras or self.drawn_disc)

    @property
    def made_gauges(self) -> tuple[Gauge, ...]:
        """The gauges that are cut along. Raises: SpecError where this wheel can have none such."""
        return wanted_gauges(self.gauges, self.setting, self.cutting.kerf_mm)

    @property
    def gauge_faults(self) -> list[Fault]:
        """Why gauges that are asked for cannot be made, or not of the plate to hand."""
        steel = self.gauges.steel or self.wheel.steel
        here = [sheet.thickness_mm for sheet in self.stock if sheet.steel == steel]
        here += [piece.thickness_mm for piece in self.offcuts if piece.steel == steel]
        faults = [*plate_faults(self.gauges, steel, here)]
        try:
            _ = self.made_gauges
        except SpecError as error:
            faults += error.faults
        return [self.places.placed(fault) for fault in faults]

    def rows(self, section: str) -> tuple[Spec, ...]:
        """The rows of a repeated section, those of the rack among them; of [[extra]] none."""
        return () if section == "extra" else tuple(getattr(self, FIELDS.get(section, section)))


def read_job(path: Path, *, gauges_cut: bool = False) -> Job:
    """Job from a file. Raises: SpecError with every fault and its line, as `job_of`; nothing else
    for bad input."""
    return read_with_table(path, gauges_cut=gauges_cut)[0]


def read_with_table(path: Path, *, gauges_cut: bool = False) -> tuple[Job, dict[str, Any]]:
    """The same, and the sections as the file has them, from one reading. Raises: SpecError."""
    text = read_toml(path, KINDS, REPEATED)
    faults = [*text.faults]
    try:
        job = job_of(text.table, path.parent, path, gauges_cut=gauges_cut)
    except SpecError as error:
        found = [one for one in error.faults if one.key not in text.told]
        if text.vague:  # what is missing, or does not go with it, may stand in a broken line
            alone = {*told_alone(text.table)}
            found = [one for one in found if one in alone]
        told = {one.key for one in (*faults, *found)}  # of what broke a rule the unit may be wrong
        odd = odd_units({name: text.table.get(name) for name in SINGLE}, KINDS, REPEATED)
        found += (one.fault() for one in odd if one.key not in told)
        faults += (text.places.placed(one) for one in found)
    if faults:
        raise SpecError(sorted(faults, key=lambda one: one.line))
    return replace(job, places=text.places), text.table


def told_alone(table: dict[str, Any]) -> Iterator[Fault]:
    """Faults of keys that no other key could mend."""
    for name in KINDS:
        given = table.get(name, [])
        rows = given if isinstance(given, list) else [given]
        for i, row in enumerate(rows):
            place = name if name in SINGLE else f"{name}[{i}]"
            if isinstance(row, dict):
                faults = key_faults(name, row, KINDS, REPEATED, rules=False)
                yield from (one.below(place) for one in faults if one.value is not None)


def job_of(
    table: dict[str, Any],
    folder: Path = HERE,
    file: Path | None = None,
    *,
    gauges_cut: bool = False,
) -> Job:
    """Job from a parsed table; files that it names are seen from `folder`. A gauge that cannot be
    made is a fault where `gauges_cut`.

    Raises: SpecError with every fault.
    """
    needed = [name for name in SINGLE if name not in (*OPTIONAL, *UNASKED)]
    faults = [*section_faults(table, KINDS, REPEATED, needed)]
    for name in SINGLE:
        section = table.get(name)
        if section is None and name in OPTIONAL:
            section = {}
        if isinstance(section, dict):
            faults += (one.below(name) for one in key_faults(name, section, KINDS, REPEATED))
    drawn, bad_extras = own_parts(table, folder, RESERVED)
    disc, bad_disc = drawn_disc(table, folder)
    faults += [*bad_extras, *bad_disc]
    for name in REPEATED:
        rows = table.get(name, [])
        for i, row in enumerate(rows if isinstance(rows, list) else []):
            if isinstance(row, dict):
                extra = name == "extra"  # the rest of it is told with its drawing
                found = odd_values(Extra, row) if extra else key_faults(name, row, KINDS, REPEATED)
                faults += (one.below(f"{name}[{i}]") for one in found)
    faults += _repeated_names(table)
    if faults:
        raise SpecError(faults)
    require_all_read(table, drawn, disc)
    there = {name: kind for name, kind in SINGLE.items() if name in table or name not in UNASKED}
    single = {name: kind(**table.get(name, {})) for name, kind in there.items()}
    rows = {name: tuple(kind(**r) for r in table.get(name, [])) for name, kind in REPEATED.items()}
    rack = rack_of(single["job"], folder, file, rows)
    if rack:
        rows = rows | rack.rows(single["job"].name)  # type: ignore[attr-defined]
    extras = extra_parts(drawn, single["wheel"].steel)  # type: ignore[attr-defined]
    made: dict[str, Any] = {**single, **rows, "extra": extras}
    values = {FIELDS.get(name, name): one for name, one in made.items()}
    values |= {"drawn_disc": disc, "own_disc": disc.blank if disc else None}
    job = Job(**values, rack=rack, has_axle="axle" in table)
    faults = [*speed_faults(job.cutting, job.cut_speeds, cut_thicknesses_mm(job))]
    faults += [*curve_faults(job.track, job.wagon), *way_faults(job.way, job.track, job.wagon)]
    faults += file_layer_faults(job.file_layers, job.cutting.dxf_version)
    faults += wear_faults(job.wheel, job.use)
    faults += too_many_lines([*drawn_copies(job)], job.stock, job.offcuts)
    if "gauges" in table:
        faults += unasked_faults(table["gauges"])
    if gauges_cut:
        faults += job.gauge_faults
    if job.has_axle:  # no check of the axle is left out in silence
        # too little play is no fault of the making: the check of play tells it
        faults += [f for f in wheelset_faults(job.setting) if f.key != "axle.back_to_back_mm"]
    if faults:
        raise SpecError(faults)
    return job


def cut_thicknesses_mm(job: Job) -> list[float]:
    """Thicknesses of all blanks that are cut from sheet."""
    wheel = job.wheel
    tread = [wheel.tread_thickness_mm] if wheel.tread_from == "sheet" else []
    extras = [extra.blank.thickness_mm for extra in job.extras]
    gauges = [job.gauges.thickness_mm] if job.gauges.thickness_mm else []
    return [*tread, wheel.disc_thickness_mm, wheel.flange_thickness_mm, *extras, *gauges]


def drawn_copies(job: Job) -> Iterator[Copies]:
    """What is cut to the user's own drawings."""
    yield from (copies_of(part, row) for row, part in enumerate(job.extras))
    if job.drawn_disc:
        disc = job.drawn_disc
        yield copies_of_disc(disc.spec.file, disc.blank, job.wheel.steel, job.head.wheels)


def _repeated_names(table: dict[str, Any]) -> Iterator[Fault]:
    """Offcuts are told apart by their names in reports and files."""
    seen: set[str] = set()
    rows = table.get("offcut", [])
    for i, row in enumerate(rows if isinstance(rows, list) else []):
        name = row.get("name") if isinstance(row, dict) else None
        if isinstance(name, str):
            if as_called(name) in seen:
                yield Fault(f"offcut[{i}].name", name, "a name of its own", "chalk another number")
            seen.add(as_called(name))
