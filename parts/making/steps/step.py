"""One step to build, and what of a job the steps ask for."""

from __future__ import annotations

import fnmatch
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from platewheel.parts.setting.costs import Costs
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheel.assembly import wheel_parts
from platewheel.parts.wheelset.assembly import Wheelset

SMALL_PARTS = "templates/small-parts.pdf"


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One figure of a step, with its limit in words and where that comes from; `fine`: for a
    micrometer."""

    name: str
    value: float
    unit: str
    limit: str = ""
    source: str
    fine: bool = False


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step: what to do, figures, the order of tacks or beads by name, cautions."""

    id: str
    title: str
    do: Sequence[str]
    figures: Sequence[Figure]
    order: Sequence[str]
    cautions: Sequence[str]
    form: Sequence[str] = ()  # what is read before, under load and after, and written down
    uses: Sequence[str] = ()  # files of the job folder that it is done by, as templates/disc-a4.pdf


class Drilled(Protocol):
    """Holes of one size of one blank that are drilled, since they are too small to be cut."""

    @property
    def blank(self) -> str: ...

    @property
    def diameter_mm(self) -> float: ...

    @property
    def count(self) -> int: ...


class Judged(Protocol):
    """A check that has been made."""

    @property
    def id(self) -> str: ...

    @property
    def title(self) -> str: ...

    @property
    def verdict(self) -> str: ...

    @property
    def says(self) -> str: ...


@dataclass(frozen=True, kw_only=True)
class Work:
    """What there is to do: so many wheels in their setting; what is cut and drilled of their
    blanks; axles with the length and bar that each is sawn from; the wheel's rating, if known."""

    setting: Setting
    costs: Costs
    wheels: int
    cut_length_mm: float
    drilled: Sequence[Drilled]
    wheelset: Wheelset | None = None
    axles: int = 0
    axle_piece_mm: float = 0.0
    axle_bar_mm: float = 0.0
    rated_n: float | None = None
    carries_kg: float | None = None  # a wagon's payload by that rating; negative: too heavy empty
    files: Sequence[str] = ()  # all that the build writes, as paths below the job folder


def used(work: Work, *patterns: str) -> tuple[str, ...]:
    """Files of the job folder that match, in the order of the patterns: none that is not written.
    A template without a file of its own stands on the page of small parts."""
    found: list[str] = []
    for pattern in patterns:
        these = sorted(fnmatch.filter(work.files, pattern))
        if not these and pattern.startswith("templates/") and SMALL_PARTS in work.files:
            these = [SMALL_PARTS]
        found += these
    return tuple(dict.fromkeys(found))


def cut_files(work: Work, *kinds: str) -> tuple[str, ...]:
    """What blanks of these kinds are cut by: templates by hand, else the machine's own files."""
    wheel_made = wheel_parts(work.setting.wheel, disc=work.setting.disc)
    parts = [part for part in wheel_made if part.blank and part.name.startswith(kinds)]
    if work.setting.process == "hand":
        return used(work, *(f"templates/{part.name}.pdf" for part in parts), "plates.pdf")
    thick = sorted({part.blank.thickness_mm for part in parts if part.blank})
    sheets = (f"sheets/{one:.12g}mm-*.dxf" for one in thick)
    return used(work, *sheets, "plates.pdf", *(f"blanks/{part.name}.dxf" for part in parts))
