"""Smallest changes where no wheel is strong enough: what is told was tried, and does."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from platewheel.cli.job.job import Job, read_job
from platewheel.cli.propose import what_helps
from platewheel.cli.propose.what_helps import lighter_payload, smallest_changes
from platewheel.parts.rating.endurance import BlockDamage
from platewheel.parts.setting.setting import Setting
from tests.places import DEMO

JOB = read_job(DEMO)  # 500 kg, 15 years of 300 km
CURVE = BlockDamage("curve of 12 m", "loaded", 1e5, 2e3, 9e2, 0.6, 0.3)
STRAIGHT = BlockDamage("straight", "loaded", 3e5, 2e3, 0.0, 0.4, 0.2)


def rated(monkeypatch: pytest.MonkeyPatch, *, payload_kg: float, life_km: float, does: Any) -> None:
    limit = SimpleNamespace(name="weld roots", where="rim")
    found = SimpleNamespace(
        payload_kg=payload_kg,
        life_km=life_km,
        least=SimpleNamespace(governs=limit),
        by_block=(CURVE, STRAIGHT),
    )
    monkeypatch.setattr(what_helps, "assess", lambda setting: found)
    monkeypatch.setattr(
        what_helps, "finalist", lambda job, *rest: object() if does(job) else "left out"
    )


def test_what_eats_the_life_comes_first(monkeypatch: pytest.MonkeyPatch) -> None:
    rated(monkeypatch, payload_kg=300.0, life_km=3000.0, does=lambda job: False)
    (line,) = smallest_changes(JOB, 0.1)
    assert line == (
        "the strongest is limited by weld roots: rim; it lasts 3000 km of 4500, and 60 % of the "
        "harm comes from the curve of 12 m, loaded"
    )


def test_only_what_was_found_to_do_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """From 330 / 1.1 = 300 kg down by 6 % until it does; years likewise, from 10 / 1.1."""

    def does(job: Job) -> bool:
        return job.wagon.payload_kg <= 270 or job.use.years <= 8.6

    rated(monkeypatch, payload_kg=330.0, life_km=3000.0, does=does)
    _, payload, years = smallest_changes(JOB, 0.1)
    assert payload.startswith("this would do: wagon.payload_kg = 265 in place of 500")
    assert years.startswith("this would do: use.years = 8.55 in place of 15")


def test_years_are_no_help_where_life_is_long_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    rated(monkeypatch, payload_kg=330.0, life_km=9000.0, does=lambda job: True)
    lines = smallest_changes(JOB, 0.0)
    assert len(lines) == 2
    assert "payload_kg = 330" in lines[1]


def test_the_largest_payload_that_passes_the_screening(monkeypatch: pytest.MonkeyPatch) -> None:
    def sifted(setting: Setting, *rest: object) -> Any:
        count = int(setting.wagon.payload_kg <= least)
        return SimpleNamespace(wheels=SimpleNamespace(count=count))

    monkeypatch.setattr(what_helps, "sifted_at_last", sifted)
    choices: Any = None
    least = 320.0
    (line,) = lighter_payload(JOB, choices, ())
    assert line.endswith("wagon.payload_kg = 300 in place of 500")
    least = -1.0
    assert lighter_payload(JOB, choices, ()) == []
