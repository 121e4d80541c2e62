"""The questions of `platewheel new --ask`, answered by a list in place of a person."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from platewheel.cli.job.job import job_of
from platewheel.cli.start.first_job import SHEETS, SIZE, TREAD, UNITS, table_of
from platewheel.cli.start.interview import faults_of, interview
from platewheel.cli.start.questions import FIRST, QUESTIONS
from platewheel.cli.start.short_file import short_job_text

PATHS = [question.path for question in QUESTIONS]


class Listed:
    """A `Talk` with its answers in a list; "" takes the default, after the last "2" comes once."""

    def __init__(self, answers: list[str]) -> None:
        self.answers: Iterator[str] = iter([*answers, "2"])
        self.said: list[str] = []
        self.offered: list[str] = []

    def say(self, line: str) -> None:
        self.said.append(line)

    def ask(self, label: str, default: str) -> str:
        self.offered.append(default)
        return next(self.answers) or default


def answers(**given: list[str]) -> list[str]:
    """A line a question, or several for one: by the last part of its path."""
    listed = []
    for path in PATHS:
        listed += given.get(path.split(".")[1], [""])
    return listed


def asked(**given: list[str]) -> tuple[dict[str, Any], Listed]:
    talk = Listed(answers(**given))
    return interview(talk)[0], talk


def test_enter_everywhere_is_the_file_that_new_writes() -> None:
    found, talk = asked()
    assert table_of(found) == table_of({})
    assert list(found) == PATHS
    assert not any("; allowed: " in line for line in talk.said)


def test_enter_everywhere_in_inches_is_a_job_in_round_inches() -> None:
    found, talk = asked(units=["inch"])
    job = job_of(table_of(found))
    assert job.track.gauge_mm == 457.2
    assert job.paper.units == "inch"
    assert "18" in talk.offered
    assert "1/4 5/16" in talk.offered
    assert "Gauge: 457.2 mm (18 in)" in talk.said
    assert any(line.endswith("in, usually 7 1/4 to 30") for line in talk.said)
    assert any(line.endswith("lb, usually 110 to 4400") for line in talk.said)
    assert not any("e+" in line for line in talk.said)


def test_answers_stand_in_the_job_and_conversions_are_told() -> None:
    found, talk = asked(
        gauge_mm=["381"], tare_kg=["0,1 t"], hub_bore_mm=["1 1/4 in"], thickness_mm=["5 6"],
        size=["1 x 2 m"], process=["laser"], tread_diameter_mm=["25 cm"],
    )  # fmt: skip
    table = table_of(found)
    assert table["track"]["gauge_mm"] == 381
    assert table["wagon"]["tare_kg"] == 100
    assert table["wheel"]["hub_bore_mm"] == 31.75
    assert table["wheel"]["tread_diameter_mm"] == 250
    assert table["stock"] == [
        {"thickness_mm": t, "width_mm": 1000, "length_mm": 2000} for t in (5, 6)
    ]
    assert {"read as 100 kg", "read as 31.75 mm", "read as 250 mm"} <= set(talk.said)
    assert "read as 381 mm" not in talk.said  # as written


def test_a_wrong_answer_is_asked_again_with_the_words_of_the_job_file() -> None:
    found, talk = asked(gauge_mm=["50", "5 kg", "184"], wheels=["many", "6"])
    assert found["track.gauge_mm"] == 184
    assert found["job.wheels"] == 6
    with pytest.raises(Exception, match=r"track\.gauge_mm: found 50\.0; allowed") as error:
        job_of(table_of({}) | {"track": table_of({})["track"] | {"gauge_mm": 50.0}})
    words = next(f for f in error.value.faults if f.key == "track.gauge_mm")  # type: ignore[attr-defined]
    assert str(words) in talk.said
    assert any(x.startswith("track.gauge_mm: found '5 kg'; allowed: a number") for x in talk.said)
    assert any(x.startswith("job.wheels: found 'many'; allowed: a whole number") for x in talk.said)


def test_an_answer_that_does_not_go_with_those_before_it_is_refused_at_once() -> None:
    found, talk = asked(min_curve_radius_m=["2"], wheelbase_mm=["4 m", "400"])
    assert found["wagon.wheelbase_mm"] == 400
    (said,) = [x for x in talk.said if x.startswith("track.min_curve_radius_m: found 2.0")]
    assert "what a wheelbase of 4000 mm can pass" in said


def test_a_wrong_choice_at_the_end_is_told_no_longer_than_other_answers() -> None:
    talk = Listed([*answers(), "a" * 10_000, "\u202e2", "2"])
    interview(talk)
    told = [line for line in talk.said if line.startswith("answer: found")]
    assert [line.isprintable() and len(line) < 120 for line in told] == [True, True]


def test_back_asks_the_question_before_again_with_its_answer_offered() -> None:
    found, talk = asked(gauge_mm=["184"], min_curve_radius_m=["<", "190", ""])
    assert found["track.gauge_mm"] == 190
    gauges = [talk.offered[i] for i in (3, 5)]
    assert gauges == ["457", "184"]


def test_back_from_the_first_question_and_from_the_last() -> None:
    talk = Listed(["<", *answers(), "<", "260", "1"])
    found, search = interview(talk)
    assert search
    assert found[TREAD] == 260
    assert "This is the first question." in talk.said


def test_who_has_people_ride_is_told_to_have_the_wheels_proof_loaded() -> None:
    assert not any("proof-loaded" in line for line in asked()[1].said)
    found, talk = asked(consequence=["h"])
    assert found["use.consequence"] == "high"
    assert any("No one rides before the wheels are proof-loaded" in line for line in talk.said)


def test_a_question_mark_tells_the_key_in_full() -> None:
    _, talk = asked(gauge_mm=["?", ""])
    assert "between the rail heads, inside (a number from 100 up to 2000 mm)" in talk.said


def test_what_it_will_write_is_shown_before_it_is_written() -> None:
    _, talk = asked(payload_kg=["333"], tread_diameter_mm=["propose"])
    end = talk.said[talk.said.index("Millimetres or inches: mm") :]
    assert "Load of a wagon: 333 kg" in end
    assert len([line for line in end if ": " in line]) >= len(QUESTIONS)
    assert any("propose" in line for line in end[len(QUESTIONS) :])


def a_value(path: str) -> st.SearchStrategy[Any]:
    """Within what is usual of a question, as few places as a person gives."""
    first = FIRST.get(path)
    if path == "job.name":
        return st.from_regex(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,20}[A-Za-z0-9]", fullmatch=True)
    if path == SIZE:
        return st.tuples(st.integers(500, 1500), st.integers(1500, 3000))
    if path == SHEETS:
        return st.sets(st.integers(3, 12), min_size=1, max_size=4).map(lambda s: tuple(sorted(s)))
    if path == "use.consequence":
        return st.sampled_from(["low", "high"])
    if path == "cutting.process":
        return st.sampled_from(["plasma", "laser", "oxy-fuel", "hand"])
    if path == "wheel.seam":
        return st.sampled_from(["as-welded", "dressed"])
    if path == "finish.coating":
        return st.sampled_from(["galvanized", "painted", "bare"])
    if path == UNITS:
        return st.just("mm")
    assert first
    assert first.usual
    low, high = first.usual
    return st.integers(int(low), int(high))


def written(value: Any, path: str) -> str:
    many = value if isinstance(value, tuple) else (value,)
    return (" x " if path == SIZE else " ").join(map(str, many))


@settings(max_examples=15, deadline=None)
@given(st.fixed_dictionaries({path: a_value(path) for path in PATHS if path != TREAD}))
def test_any_usual_answers_give_a_job_file_that_reads_back_equal(given: dict[str, Any]) -> None:
    talk = Listed([written(given[path], path) for path in PATHS if path != TREAD] + ["propose"])
    if given["track.min_curve_radius_m"] < given["wagon.wheelbase_mm"] / 1000 / 2**0.5:
        assert faults_of(given, "wagon.wheelbase_mm")
        return
    found, _ = interview(talk)
    table = table_of(found)
    assert tomllib.loads(short_job_text(table)) == table
    assert job_of(table).shop.roll_diameter_mm == given["shop.roll_diameter_mm"]
    for path, value in given.items():
        section, key = path.split(".")
        if section not in ("stock", "paper"):
            assert table[section][key] == value, path
    assert [row["thickness_mm"] for row in table["stock"]] == list(given[SHEETS])
    assert {(row["width_mm"], row["length_mm"]) for row in table["stock"]} == {given[SIZE]}


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from([path for path in PATHS if path in FIRST and path != SHEETS]),
    st.floats(-10, 3000) | st.integers(-10, 200000) | st.floats(allow_nan=False),
)
def test_an_answer_is_refused_or_makes_a_job_never_anything_else(path: str, value: float) -> None:
    """Whatever its range: the start of all else follows it, or says what is wrong."""
    if FIRST[path].field.annotation is int:
        value = int(value) if abs(value) < 1e9 else 3
    elif FIRST[path].field.annotation is not float:
        return
    if not faults_of({path: value}, path):
        job_of(table_of({path: value}))
