"""Keys of the job file in trade words, for those who hold a paper."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from platewheel.cli.schema.job_sections import KINDS
from platewheel.cli.words.phrases import Sentence
from platewheel.cli.words.plain import WORDS, plain
from platewheel.parts import checks
from platewheel.parts.base.faults import SpecError
from platewheel.parts.checks.run import run_checks
from tests.parts.checks.running.settings import running_setting
from tests.parts.checks.test_advice_at_random import keys_at_random


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ("too thin: wheel.weld_throat_mm = 5", "too thin: fillet throat of 5 mm"),
        ("take wagon.payload_kg = 430 or more", "take payload of 430 kg or more"),
        ("set price in its [[stock]]", "set price in its list of plates"),
        ("flange_angle_deg = 70 or less", "flange angle of 70 deg or less"),
        ("use.push_force_n = 400", "push of 400 N"),
        ("wheel.vent_count = 4", "vents in each disc of 4"),
        ('axle.wheels_on_axle = "loose"', "wheels on their axle: loose"),
        ("wheel.root_backed = true", "flange root welded from behind"),
        ("wheel.root_backed = false", "no flange root welded from behind"),
        ("gone before use.years: paint", "gone before years of use: paint"),
        ("set costs.sawing_minutes", "set sawing minutes"),
        ("set job.author", "set author"),  # keys of every section are known
        ("stock[1].width_mm: found 5", "width: found 5"),
        ("see wheel.step and my_job_1, stock.toml", "see wheel.step and my_job_1, stock.toml"),
        ("FAT = 90, k = 3, EN 13232-9", "FAT = 90, k = 3, EN 13232-9"),
    ],
)
def test_a_key_is_told_in_words(told: str, words: str) -> None:
    assert plain(told) == words


def test_a_length_gets_its_inches_after_its_words() -> None:
    told = Sentence(plain("wheel.disc_thickness_mm = 6.35")).told("inch")
    assert told == "disc thickness of 1/4 in (6.35 mm)"


def test_words_are_of_keys_that_are_there() -> None:
    for key in WORDS:
        section, name = key.split(".")
        assert name in KINDS[section].model_fields, key
    assert not [words for words in WORDS.values() if "_" in words]


def test_each_key_that_a_check_advises_has_words() -> None:
    home = Path(checks.__file__).parent
    text = "\n".join(path.read_text(encoding="utf-8") for path in home.rglob("*.py"))
    advised = set(re.findall(r"\b((?:track|wagon|wheel|use|shop|axle)\.\w+) = ", text))
    quoted = re.findall(r"\"((?:track|wagon|wheel|use|shop|axle)\.[a-z]\w+)\"", text)
    advised |= set(quoted)  # as they are tried
    assert len(advised) > 25
    assert advised - set(WORDS) - {"wheel.first_disc_both_sides"} == set()


@pytest.mark.parametrize("seed", range(6))
def test_no_sentence_of_a_check_keeps_a_key(seed: int) -> None:
    dice = random.Random(seed)
    try:
        setting = running_setting(**keys_at_random(dice))
    except SpecError:
        setting = running_setting(payload_kg=9000.0, weld_throat_mm=2.0, min_curve_radius_m=3.0)
    told = [plain(one.says) for one in run_checks(setting)]
    assert [line for line in told if "_" in line] == []
