"""Jobs that differ in one key; which keys are read while files are made of a job."""

from __future__ import annotations

import sys
from collections.abc import Callable, Collection, Iterator
from dataclasses import fields, replace
from pathlib import Path
from typing import Any, TypeVar, get_args

from platewheel.cli.job.axles import axle_rests
from platewheel.cli.job.job import Job
from platewheel.cli.job.plan import plan_job
from platewheel.cli.output.solids import write_solids
from platewheel.cli.output.write import write_blanks, write_sheets, write_templates
from platewheel.parts.base.spec_model import Spec, example, unchecked
from platewheel.parts.wheel.assembly import wheel_parts

S = TypeVar("S", bound=Spec)
WHOLE = ("__dict__", "model_dump")  # a copy, read further unseen


def traced(job: Job, seen: set[str], through: Collection[str]) -> Job:
    """The same job, which notes in `seen` each `field.key` that is read, but not what functions
    of the names `through` read."""

    def note(name: str) -> None:
        if name in seen:
            return
        frame = sys._getframe(2)
        while frame is not None:
            if frame.f_code.co_name in through:
                return
            frame = frame.f_back  # type: ignore[assignment]
        seen.add(name)

    def watched(field: str, spec: S) -> S:
        kind: Any = type(spec)

        def read(self: object, key: str) -> object:
            if key in kind.model_fields or key in WHOLE:
                note(f"{field}.{key}")
            return kind.__getattribute__(self, key)

        copy = spec.model_copy()
        told = type(kind.__name__, (kind,), {"__getattribute__": read, "__hash__": kind.__hash__})
        object.__setattr__(copy, "__class__", told)
        return copy

    changes: dict[str, Any] = {}
    for one in fields(job):
        value = getattr(job, one.name)
        if isinstance(value, Spec):
            changes[one.name] = watched(one.name, value)
        elif isinstance(value, tuple) and all(isinstance(row, Spec) for row in value):
            changes[one.name] = tuple(watched(one.name, row) for row in value)
    plain = {one.name for one in fields(job) if one.name not in changes}

    def read(self: object, key: str) -> object:
        if key in plain:
            note(key)
        return object.__getattribute__(self, key)

    copy = replace(job, **changes)
    object.__setattr__(copy, "__class__", type("Job", (Job,), {"__getattribute__": read}))
    return copy


def others(kind: type[Spec], key: str, value: Any) -> Iterator[Any]:
    """Other values of a key, as near as may be."""
    field = kind.model_fields[key]
    yield from (one for one in _choices(field.annotation) if one != value)
    if value is None:
        yield example(field)
    elif isinstance(value, bool):
        yield not value
    elif isinstance(value, int | float):
        yield value + 1
    elif isinstance(value, str):
        yield f"{value}x"
    else:
        yield (*value, *value) or example(field) or ("one",)


def _choices(annotation: Any) -> Iterator[str]:
    for one in get_args(annotation):
        yield from [one] if isinstance(one, str) else _choices(one)


def states(job: Job, field: str, key: str) -> Iterator[Job]:
    """A job with one key changed, no rule asked; some wheels cannot be made so."""
    now = getattr(job, field)
    spec = now[0] if isinstance(now, tuple) else now
    for value in others(type(spec), key, getattr(spec, key)):
        other = unchecked(spec, {key: value})
        made = (other, *now[1:]) if isinstance(now, tuple) else other
        yield replace(job, **{field: made})


def _sheets(job: Job, folder: Path) -> None:
    plan = plan_job(job, 0, lambda text: None, "quick")
    write_sheets(job, plan, folder, axle_rests(job))


WRITERS: dict[str, Callable[[Job, Path], object]] = {
    "blanks": lambda job, to: write_blanks(job, wheel_parts(job.wheel, disc=job.own_disc), to),
    "templates": lambda job, to: write_templates(
        job, wheel_parts(job.wheel, disc=job.own_disc), to
    ),
    "sheets": _sheets,
    "solids": lambda job, to: write_solids(job, wheel_parts(job.wheel, disc=job.own_disc), to),
}
