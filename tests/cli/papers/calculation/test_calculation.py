"""calculation.pdf as whoever signs reads it: every equation worked out again from its own text."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import pypdf
import pypdfium2
import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.job.wheelset import job_checks
from platewheel.cli.papers.calculation_pdf import calculation_data, calculation_pdf
from platewheel.nesting.templates.paper import Paper
from platewheel.parts.checks.result import CheckResult
from platewheel.parts.rating.assess import Assessment, assess
from tests.cli.papers.calculation.worked_again import (
    GIVEN,
    faults,
    half_step,
    read_lines,
    value_of,
)
from tests.places import DEMO

HEADER = re.compile(r"^.*?page \d+ of \d+", re.DOTALL)
JUDGED = re.compile(
    r"\[(\d+)\] (?:\S+ = (\S+)[^\[\]]*?, at (most|least) \S+ = (\S+)|(?:limit )?\S+ = (\S+))"
)


@dataclass(frozen=True)
class Paged:
    """A calculation, what it was made of, and its text page by page."""

    job: Job
    results: Sequence[CheckResult]
    found: Assessment | None
    data: dict[str, Any]
    pdf: bytes
    pages: tuple[str, ...]

    @property
    def text(self) -> str:
        return " ".join(self.pages)


def pages_of(pdf: bytes) -> tuple[str, ...]:
    """As pdfium reads them, without the running head."""
    with pypdfium2.PdfDocument(pdf) as document:
        texts = [page.get_textpage().get_text_bounded() for page in document]
    return tuple(plain(text) for text in texts)


def plain(text: str) -> str:
    return " ".join(HEADER.sub("", text, count=1).split())


def made(job: Job, found: Assessment | None) -> Paged:
    results = job_checks(job, found)
    pdf = calculation_pdf(job, results, found)
    return Paged(job, results, found, calculation_data(job, results, found), pdf, pages_of(pdf))


@pytest.fixture(scope="module")
def demo() -> Paged:
    """Scrapped unworn, so that one coarse analysis does."""
    job = read_job(DEMO)
    job = replace(job, use=job.use.model_copy(update={"wear_allowance_mm": 0.0}))
    return made(job, assess(job.setting, size_mm=6.0))


@pytest.fixture(scope="module")
def in_inches() -> Paged:
    """On letter paper, and without the stress analysis."""
    job = read_job(DEMO)
    return made(replace(job, paper=Paper(size="Letter", units="inch")), None)


def test_every_equation_gives_what_is_printed_behind_it(demo: Paged) -> None:
    assert list(faults(demo.text)) == []


def test_every_line_stands_in_the_pdf(demo: Paged) -> None:
    lines = [line for part in demo.data["shared"] for line in part["lines"]]
    checks = [one for group in demo.data["groups"] for one in group["checks"]]
    lines += [line for one in checks for line in one["lines"]]
    told = {line.tag: line for line in read_lines(demo.text)}
    assert len(lines) > 350
    assert {line["number"] for line in lines} | {"R1", "R2", "R3", "R4"} == set(told)
    for line in lines:
        result = line["equation"].split(" = ")[-1].split(" ")[0]
        assert told[line["number"]].result == result
    formulas = [line for line in told.values() if line.numbers]
    assert len(formulas) > 320


def test_a_sign_that_is_changed_is_seen(demo: Paged) -> None:
    """All but the few that change nothing, as of h + 0."""
    tried = seen = 0
    for one, other in ((" + ", " − "), (" × ", " / "), ("cos(", "sin(")):
        places = [found.start() for found in re.finditer(re.escape(one), demo.text)]
        letters = [
            at
            for at in places
            if " = " in demo.text[at - 30 : at] and " = " in demo.text[at : at + 60]
        ]
        for at in letters[:: max(1, len(letters) // 5)]:
            spoilt = demo.text[:at] + other + demo.text[at + len(one) :]
            tried, seen = tried + 1, seen + bool(list(faults(spoilt)))
    assert tried >= 12
    assert seen >= tried - 2


def test_value_and_limit_are_the_check_s(demo: Paged, in_inches: Paged) -> None:
    for paged in (demo, in_inches):
        numbers = {
            one["number"]: one["id"] for group in paged.data["groups"] for one in group["checks"]
        }
        results = {one.id: one for one in paged.results}
        assert set(numbers.values()) == set(results)
        told = {int(found[1]): found for found in JUDGED.finditer(paged.text)}
        for number, id in numbers.items():
            result = results[id]
            if result.value is None and result.limit is None:
                continue
            found = told[number]
            if result.value is None or result.limit is None:
                assert near(found[5], result.value if result.limit is None else result.limit)
                continue
            assert near(found[2], result.value), result.id
            assert near(found[4], result.limit), result.id
            if result.margin and result.verdict == "pass":
                more = result.value < result.limit
                assert (found[3] == "most") == more, result.id


def near(text: str, value: float | None) -> bool:
    text = text.strip(",:")
    return value is not None and abs(value_of(text) - value) <= half_step(text) + 1e-9


def test_the_summary_has_every_check_with_its_page(demo: Paged) -> None:
    summary = " ".join(demo.pages[:3]).partition("No. Check")[2]
    for group in demo.data["groups"]:
        for one in group["checks"]:
            row = re.search(rf"\b{one['number']} {one['id']} .*?(pass|WARN|FAIL) (\d+)", summary)
            assert row is not None, one["id"]
            assert f"{one['number']}. {one['title']}" in demo.pages[int(row[2]) - 1]
            assert one["margin"].replace("-", "−") in row[0].replace("-", "−")


def test_the_first_page_names_what_does_not_pass_and_what_is_told_beside(demo: Paged) -> None:
    ids = {one.id for one in demo.results if one.verdict != "pass"}
    assert ids == {"coating-life"}
    first = demo.pages[0]
    assert re.search(r"WARN: \d+ coating-life", first)
    assert demo.found is not None
    root = next(one for one in demo.found.new.limits if one.name == "weld roots, full range")
    assert not root.judged
    assert root.load_n < value_of(demo.data["rating"]["loads"][0][1])
    assert f"weld roots, full range allow {root.load_n:.0f} N, wheel new" in first
    assert "judges a root by the force over its throat" in demo.text


def test_another_reader_finds_the_same(demo: Paged, tmp_path: Any) -> None:
    file = tmp_path / "calculation.pdf"
    file.write_bytes(demo.pdf)
    reader = pypdf.PdfReader(file)
    for k in (5, 6, 12):
        text = plain(reader.pages[k].extract_text())
        assert [(one.tag, one.numbers, one.result) for one in read_lines(text)] == [
            (one.tag, one.numbers, one.result) for one in read_lines(demo.pages[k])
        ]


def test_miner_s_sum_adds_up_from_what_is_printed(demo: Paged) -> None:
    rating, text = demo.data["rating"], demo.text
    fat = float(re.search(r"FAT (\d+)", rating["where"])[1])  # type: ignore[index]
    factor = demo.job.setting.fatigue_factor
    knee = fat * (2e6 / 1e7) ** (1 / 3)
    rolling = struck = 0.0
    for row in rating["miner"]:
        turns, spread, bears, done = (value_of(cell) for cell in row[6:10])
        share = factor * spread / knee
        expected = 1e7 / (share**3 if share > 1 else share**5)
        assert bears == pytest.approx(expected, rel=3e-4)
        assert done == pytest.approx(turns / expected, rel=3e-4, abs=1e-15)
        rolling, struck = rolling + done, struck + value_of(row[12])
        assert " ".join(row[1:]) in text  # as it stands in the table
    sums = {line.symbol: value_of(line.result) for line in read_lines(text) if line.tag[0] == "R"}
    assert sums["Δσ_knee"] == pytest.approx(knee, rel=1e-4)
    assert sums["D"] == pytest.approx(rolling + struck, rel=1e-4)
    assert demo.found is not None
    assert sums["life"] == pytest.approx(demo.found.life_km, rel=1e-4)
    crack = demo.found.life_ends
    assert crack is not None
    allowed = [one.load_n for one in demo.found.least.limits if one.name == crack.detail.name]
    assert sums["allowed"] == pytest.approx(allowed[0], rel=1e-4)


def test_each_fatigue_limit_has_its_stress_for_one_newton(demo: Paged) -> None:
    for state in demo.data["rating"]["states"]:
        lasting = [row for row in state["rows"] if row[2].startswith("FAT")]
        assert len(lasting) >= 5
        for row in lasting:
            assert float(row[3]) > 0
            assert row[5] != ""
    assert "residual stress" in demo.text


def test_what_is_from_memory_is_in_one_list(demo: Paged) -> None:
    doubted = re.compile("from memory|no source|our choice|by judgement")
    named = {name for _, by in demo.data["memory"] for name in by.split(", ")}
    some = [one for one in demo.results if doubted.search(one.source)]
    assert len(some) > 20
    assert {one.id for one in some} <= named
    for what, _ in demo.data["memory"]:
        assert "".join(what.split()) in "".join(demo.text.split())
        assert what.count("(") == what.count(")"), what


def test_lengths_have_inches_beside_them_on_a_paper_in_inches(in_inches: Paged) -> None:
    with pypdfium2.PdfDocument(in_inches.pdf) as document:
        assert document[0].get_size() == pytest.approx((612, 792), abs=1)
    assert "G = 457 mm (17 63/64 in), track.gauge_mm" in in_inches.text
    assert re.search(r"Q = \d+(\.\d+)? N,? line", in_inches.text)  # engineering units stay
    assert list(faults(in_inches.text)) == []
    assert "rating-new" in in_inches.text  # told as not assessed


def test_the_paper_defers_and_has_room_to_sign(demo: Paged) -> None:
    for words in (
        "Local codes", "licensed engineers", "no permission to run", "What is not covered",
        "Engineer responsible", "Signature", "explodes in a zinc bath", "EN 1993-1-8:2005",
        "checked against", "semi-analytical finite elements", "S355",
        "use.km_per_year", "wagon.payload_kg 500 kg given m_p", "Scope agreed",
    ):  # fmt: skip
        assert words in demo.text, words


def test_the_same_job_gives_the_same_bytes(in_inches: Paged) -> None:
    assert calculation_pdf(in_inches.job, in_inches.results) == in_inches.pdf


def test_given_numbers_are_read_from_the_where_lists() -> None:
    found = dict(GIVEN.findall(" r = 150 mm, line L8; low = 0.19, high = −2, of a table"))
    assert found == {"r": "150", "low": "0.19", "high": "−2"}
