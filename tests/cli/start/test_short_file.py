"""The short job file: sixty lines that run as they stand, made from the specs' own words."""

from __future__ import annotations

import re
import tomllib

import pytest

from platewheel.cli.job.job import job_of
from platewheel.cli.schema.job_sections import REPEATED, SINGLE
from platewheel.cli.start.first_job import table_of
from platewheel.cli.start.first_keys import FIRST_KEYS, FirstKey, short
from platewheel.cli.start.short_file import short_job_text
from platewheel.parts.base.faults import SpecError
from platewheel.parts.base.spec_model import find_faults, unit_of

TEXT = short_job_text(table_of({}))
TABLE = tomllib.loads(TEXT)
KEYS = [pytest.param(first, id=first.path) for first in FIRST_KEYS]


def row_of(first: FirstKey) -> dict[str, object]:
    section = TABLE[first.section]
    return section[0] if isinstance(section, list) else section


def own_faults(first: FirstKey, value: object) -> list[str]:
    kind = (SINGLE | REPEATED)[first.section]
    return [str(f) for f in find_faults(kind, {first.key: value}) if f.key == first.key]


def test_it_has_at_most_sixty_lines_none_of_them_wide() -> None:
    lines = TEXT.splitlines()
    assert len(lines) <= 60
    assert max(map(len, lines)) <= 110


def test_it_reads_back_as_the_job_that_it_was_made_of() -> None:
    assert table_of({}) == TABLE
    assert job_of(TABLE).head.name == "my-wheels"
    assert {row["thickness_mm"] for row in TABLE["stock"]} == {6, 8}


@pytest.mark.parametrize("first", KEYS)
def test_each_key_has_one_line_with_its_description_its_unit_and_what_is_usual(
    first: FirstKey,
) -> None:
    section = TEXT.split(f"[{first.section}]")[1].split("\n[")[0]
    line = next(x for x in section.splitlines() if x.startswith(f"{first.key} = "))
    note = line.split(" # ")[1]
    assert note.startswith(first.words or short(first.field))
    if first.usual:
        assert note.endswith(f"usually {first.usual[0]:g} to {first.usual[1]:g}")
        assert unit_of(first.key) in note


@pytest.mark.parametrize("first", KEYS)
def test_each_value_lies_in_what_is_usual_and_that_in_what_is_allowed(first: FirstKey) -> None:
    value = row_of(first)[first.key]
    assert own_faults(first, value) == []
    if first.usual:
        low, high = first.usual
        assert low <= value <= high  # type: ignore[operator]
        for end in (low, high):
            assert own_faults(first, end) == []


@pytest.mark.parametrize("first", [f for f in FIRST_KEYS if f.section != "stock"], ids=str)
def test_without_its_line_the_default_stands_and_all_else_as_it_was(first: FirstKey) -> None:
    lines = TEXT.splitlines()
    start = lines.index(f"[{first.section}]")
    at = next(i for i in range(start, len(lines)) if lines[i].startswith(f"{first.key} = "))
    rest = tomllib.loads("\n".join(lines[:at] + lines[at + 1 :]))
    if first.field.is_required() or first.key == "vent_circle_mm":  # asked for by the vents
        with pytest.raises(SpecError, match=rf"^{first.section}\.{first.key}: found nothing"):
            job_of(rest)
        return
    if first.key == "hub_tube_outside_mm":  # no tube of that length: its length goes, too
        del rest["wheel"]["hub_tube_length_mm"]
    whole, left = job_of(TABLE), job_of(rest)
    attribute = "head" if first.section == "job" else first.section
    had, has = getattr(whole, attribute).model_dump(), getattr(left, attribute).model_dump()
    assert has[first.key] == first.field.default
    changed = {key for key in had if had[key] != has[key]}
    assert changed <= {first.key, "hub_tube_length_mm"}


@pytest.mark.parametrize("section", ["use", "shop", "cutting", "finish"])
def test_whole_sections_that_may_go_leave_their_defaults(section: str) -> None:
    rest = {name: value for name, value in TABLE.items() if name != section}
    assert getattr(job_of(rest), section) == SINGLE[section]()


def test_keys_beyond_the_first_are_told_by_what_they_allow() -> None:
    text = short_job_text(table_of({}) | {"axle": {"back_to_back_mm": 430.5}})
    (line,) = [x for x in text.splitlines() if x.startswith("back_to_back_mm")]
    assert re.fullmatch(r"back_to_back_mm = 430.5 +# between the inner .+ up to 2000 mm", line)
    assert tomllib.loads(text)["axle"] == {"back_to_back_mm": 430.5}
