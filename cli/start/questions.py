"""The questions of `platewheel new --ask`: what each asks, how its answer is read and shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.cli.start.first_job import SHEETS, SIZE, TREAD, UNITS, tread_mm
from platewheel.cli.start.first_keys import FIRST_KEYS, note
from platewheel.cli.start.reading import (
    LENGTHS_MM,
    MASSES_KG,
    PERCENT,
    SPEEDS_KM_H,
    WAYS_KM,
    Measure,
    read_pair,
    read_size,
    read_sizes,
)
from platewheel.parts.base.faults import Fault, SpecError
from platewheel.parts.base.spec_model import allowed, example
from platewheel.parts.base.units import MM_PER_INCH, inches

MEASURES = (  # ending of the key, units, its own, and what a bare number is in for who has inches
    ("_mm", LENGTHS_MM, "mm", "in"),
    ("_m", LENGTHS_MM, "m", "ft"),
    ("_kg", MASSES_KG, "kg", "lb"),
    ("_km_h", SPEEDS_KM_H, "km/h", "mph"),
    ("km_per_year", WAYS_KM, "km", "miles"),
    ("_percent", PERCENT, "percent", "percent"),
    (".size", LENGTHS_MM, "mm", "in"),
)
LEFT = "propose"  # the wheel is left to it
FIRST = {first.path: first for first in FIRST_KEYS}


@dataclass(frozen=True)
class Question:
    """One question; `path` is the key of its answer, or a list of keys of `first_job`."""

    path: str
    title: str
    words: str = ""  # where the key's own note does not do

    @property
    def field(self) -> FieldInfo:
        """The key that tells what is allowed; of a sheet's size, its width."""
        section, key = ["stock", "width_mm"] if self.path == SIZE else self.path.split(".")
        return (SINGLE | REPEATED)[section].model_fields[key]


QUESTIONS = (
    Question(UNITS, "Millimetres or inches", "inch: also feet, pounds and miles; mm | inch"),
    Question("job.name", "Name of the job"),
    Question("job.wheels", "Wheels"),
    Question("track.gauge_mm", "Gauge"),
    Question("track.min_curve_radius_m", "Tightest curve", "its radius, to mid track"),
    Question("track.rail_head_width_mm", "Rail head"),
    Question("track.steepest_gradient_percent", "Steepest slope", "percent, or as 1 in 50"),
    Question("wagon.tare_kg", "Empty wagon", "its mass"),
    Question("wagon.payload_kg", "Load of a wagon"),
    Question("wagon.axles", "Axles of a wagon"),
    Question("wagon.wheelbase_mm", "Wheelbase"),
    Question("wagon.max_speed_km_h", "Top speed"),
    Question("use.km_per_year", "Distance in a year", "of each wagon"),
    Question(
        "use.consequence", "If a wheel breaks",
        "low: a goods wagon stops at a walk; high: someone may be hurt, as where people ride, on "
        "slopes, at speed",
    ),
    Question("shop.roll_most_thickness_mm", "Plate roller"),
    Question("shop.roll_diameter_mm", "Its top roll", "diameter"),
    Question("cutting.process", "Cutting"),
    Question("finish.coating", "Finish"),
    Question(SHEETS, "Sheets to hand", "thicknesses, one or more, as 6 8"),
    Question(SIZE, "Size of the sheets", "width x length, the same of all"),
    Question("wheel.seam", "Seams"),
    Question("wheel.hub_bore_mm", "Axle in the hub", "its diameter"),
    Question(TREAD, "Tread diameter", f"the one wanted, or {LEFT}: it is found for you"),
)  # fmt: skip


def measure_of(path: str, units: str) -> Measure | None:
    """How an answer is measured; None for names, whole numbers and choices."""
    for ending, names, own, inch in MEASURES:
        if path.endswith(ending):
            return Measure(names, own, inch if units == "inch" else own)
    return None


def note_of(question: Question, units: str) -> str:
    """What is asked, in which unit, what is usual."""
    first = FIRST.get(question.path)
    measure = measure_of(question.path, units)
    usual = f"usually {' to '.join(_coarse(v, measure) for v in first.usual)}" if (
        first and first.usual
    ) else ""  # fmt: skip
    if question.words:
        said = question.words
    elif get_origin(question.field.annotation) is Literal or first is None:
        return note(question.path.split(".")[1], question.field, first)
    else:
        said = note("", question.field, first).split("; usually")[0]
    tail = [measure.bare if measure and measure.bare not in said.split() else "", usual]
    return "; ".join([said, *([", ".join(t for t in tail if t)] if any(tail) else [])])


def read_answer(question: Question, text: str, units: str) -> Any:
    """The answer's value. Raises: SpecError where it cannot be read; ranges are asked elsewhere."""
    path, text = question.path, text.strip()
    if path == TREAD and text.lower() == LEFT:
        return None
    measure = measure_of(path, units)
    try:
        if measure:
            read: Any = {SHEETS: read_sizes, SIZE: read_pair}.get(path, read_size)
            return read(text, measure)
    except SpecError as error:
        raise SpecError(
            [Fault(path, f.value, f.allowed, f.advice) for f in error.faults]
        ) from error
    if question.field.annotation is int:
        if not text.isascii() or not text.isdigit() or len(text) > 12:
            takes = allowed(path, question.field)
            raise SpecError([Fault(path, text, takes, f"{example(question.field)}")])
        return int(text)
    choices = get_args(question.field.annotation) if path != "job.name" else ()
    low = text.lower()
    near = [c for c in choices if low and (c.startswith(low) or low.startswith(c))]
    return near[0] if len(near) == 1 else text  # i or inches for inch


def shown(path: str, value: Any, units: str) -> str:
    """The value as a person reads it, with its unit; inches beside where they are used."""
    if value is None:
        return LEFT
    measure = measure_of(path, units)
    if measure is None:
        return str(value)
    own = " x " if path == SIZE else ", "
    many = value if isinstance(value, tuple) else (value,)
    text = own.join(f"{one:.9g}" for one in many) + f" {measure.own}"
    if measure.bare == measure.own:
        return text
    return f"{text} ({own.join(_bare(one, measure) for one in many)} {measure.bare})"


def default_text(path: str, value: Any, units: str) -> str:
    """What Enter answers, as it could be written."""
    if value is None:
        return LEFT
    measure = measure_of(path, units)
    many = value if isinstance(value, tuple) else (value,)
    return (" x " if path == SIZE else " ").join(_bare(one, measure) for one in many)


def _bare(value: Any, measure: Measure | None) -> str:
    if measure is None:
        return str(value)
    if measure.bare == "in":
        return inches(value * measure.units[measure.own]).removesuffix(" in")
    if measure.bare == measure.own:
        return f"{value:.9g}"
    return f"{value * measure.units[measure.own] / measure.units[measure.bare]:.4g}"


def _coarse(value: float, measure: Measure | None) -> str:
    """An end of what is usual: to a sixteenth of an inch below two, a quarter above."""
    if measure is None or measure.bare == measure.own:
        return f"{value:g}"
    if measure.bare != "in":
        told = value * measure.units[measure.own] / measure.units[measure.bare]
        return f"{float(f'{told:.2g}'):g}"  # 2200, not 2.2e+03
    step = MM_PER_INCH / (16 if value < 2 * MM_PER_INCH else 4)
    return _bare(step * round(value / step), measure)


def summary(answered: Mapping[str, Any]) -> list[str]:
    """A line an answer."""
    units = answered[UNITS]
    lines = [f"{q.title}: {shown(q.path, answered[q.path], units)}" for q in QUESTIONS]
    if answered[TREAD] is None:
        lines[-1] += f", from {tread_mm(answered):g} mm"
    return lines
