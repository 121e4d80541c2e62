"""Lines of settings that nobody chose: each equation gives what is printed behind it."""

from __future__ import annotations

import re

from hypothesis import given, settings

from platewheel.cli.job.job import read_job
from platewheel.cli.papers.calculation.checks import check_data
from platewheel.cli.papers.calculation.lines import Calculation, calculation_lines, is_line
from platewheel.cli.papers.calculation.meanings import MEANINGS, meaning_of
from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.result import judged
from platewheel.parts.setting.setting import Setting
from platewheel.parts.wheelset.assembly import wheelset
from platewheel.parts.workings.of_checks import Working, workings
from platewheel.parts.workings.terms import all_below
from tests.cli.papers.calculation.worked_again import faults, read_lines, worked
from tests.parts.checks.settings import any_settings
from tests.parts.workings.names import lost_names
from tests.places import DEMO, TRACKS


def lines_of(setting: Setting) -> Calculation:
    try:
        made = wheelset(setting)
    except SpecError:
        made = None
    found = workings(setting, made)
    return calculation_lines(found, range(1, len(found) + 1), "mm")


def text_of(calculation: Calculation) -> str:
    """As the paper sets it."""
    lines = [line for _, some in calculation.shared for line in some]
    lines += [line for one in calculation.checks for line in one.lines]
    words = (
        f"[{line.number}] {line.equation}"
        + (f" where {'; '.join(line.given)}" if line.given else "")
        + (f" — {line.says}" if line.says else "")
        for line in lines
    )
    return " ".join(words)


@settings(max_examples=15)
@given(any_settings())
def test_every_equation_of_any_setting_holds(setting: Setting) -> None:
    assert list(faults(text_of(lines_of(setting)))) == []


def test_no_symbol_stands_for_two_quantities_and_none_is_told_twice() -> None:
    calculation = lines_of(read_job(DEMO).setting)
    shared = [line for _, some in calculation.shared for line in some]
    symbols = [line.equation.split(" = ")[0] for line in shared]
    assert len(set(symbols)) == len(symbols) > 100
    for one in calculation.checks:
        own = [line.equation.split(" = ")[0] for line in one.lines]
        assert len(set(own)) == len(own), one.working.result.id
    formulas = [(line.symbol, line.letters) for line in read_lines(text_of(calculation))]
    told = [formula for formula in formulas if formula[1]]
    assert len(told) - len(set(told)) <= 12  # the same symbols of two checks, other numbers


def test_contact_of_the_tread_reads_as_a_handbook_has_it() -> None:
    calculation = lines_of(read_job(DEMO).setting)
    equations = {
        line.equation.split(" = ")[0]: line for _, some in calculation.shared for line in some
    }
    pressure = equations["p_0"]
    assert pressure.equation.startswith("p_0 = 2 × Q / (π × b_c × l_c) = 2 × ")
    assert pressure.equation.endswith(" N/mm2")
    assert "checked against textbook problems" in pressure.says
    load = equations["Q"]
    assert load.equation.startswith("Q = max(Q_r + Q_j, Q_v) = max(")
    bent = next(one for one in calculation.checks if one.working.result.id == "flange-bending")
    stress = next(line for line in bent.lines if line.equation.startswith("σ_s"))
    assert stress.equation.split(" = ")[1].startswith("6 × ")
    assert bent.value is not None
    assert bent.value.symbol == "σ_s"


def test_a_check_whose_lines_cannot_be_followed_says_so_and_keeps_its_numbers() -> None:
    result = judged("play", "Play", 5.0, 3.0, "mm", "a book", at_most=False, good="good", bad="bad")
    alone = Working("running", result, "How much play", None, None, at_most=False, followed=False)
    (one,) = calculation_lines([alone], [7], "mm").checks
    told = check_data(7, one, {}, "mm")
    assert told["not_set_out"].startswith("Its formula could not be set out")
    assert told["judged"] == "value = 5 mm, at least limit = 3 mm"
    assert (told["source"], told["lines"]) == ("a book", [])


def test_every_line_of_a_job_says_what_it_is() -> None:
    """All but a side of a check, which its heading tells, and a side split over lines."""
    for file in (DEMO, TRACKS / "garden.toml", TRACKS / "quarry.toml"):
        setting = read_job(file).setting
        found = workings(setting, wheelset(setting))
        own = {id(side) for one in found for side in (one.value, one.limit)}
        sides = [side for one in found for side in (one.value, one.limit) if side]
        dumb = {
            (one.home.split(".")[-1], one.name)
            for one in all_below(tuple(sides))
            if is_line(one) and id(one) not in own and not meaning_of(one)
        }
        assert dumb == set(), file


def test_no_name_of_the_code_stands_in_the_words() -> None:
    """But keys of the job file, with their section, and symbols of one letter and an index."""
    code = re.compile(r"(?<![\w.])[a-zA-Z]{2,}(?:_[a-z0-9]+)+")
    for file in (DEMO, TRACKS / "garden.toml", TRACKS / "quarry.toml"):
        setting = read_job(file).setting
        found = workings(setting, wheelset(setting))
        sides = [side for one in found for side in (one.value, one.limit) if side]
        every = [one for one in all_below(tuple(sides)) if one.kind != "given"]
        words = [*(f"{meaning_of(one)} {one.source}" for one in every), *(w.says for w in found)]
        assert [one for one in words if code.search(one)] == []


def test_what_meanings_name_is_in_the_code() -> None:
    assert [*lost_names(MEANINGS)] == []


def test_which_of_several_formulas_is_taken_is_told_and_true() -> None:
    told = []
    for file in (DEMO, TRACKS / "quarry.toml", TRACKS / "twisted.toml"):
        text = text_of(lines_of(read_job(file).setting))
        told += re.findall(r"taken as ([^;\[]+?)(?=;| \[|$)", text)
    reasons = [one.split(": ")[-1] for some in told for one in some.split(" and ")]
    assert len(reasons) > 40
    for one in reasons:
        left, sign, right = re.split(r" ([<≤>≥]) ", one)
        least, most = (worked(side, {}) for side in (left, right))
        holds = {"<": least < most, "≤": least <= most, ">": least > most, "≥": least >= most}
        assert holds[sign], one
    assert any(one.startswith("work < 100: ") for one in told)  # the wear law's first step
    assert any(one.startswith("work ≥ 100: ") for one in told)  # its last
