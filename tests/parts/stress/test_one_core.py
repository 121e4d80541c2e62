"""The analysis keeps to one core, whatever the machine has, and gives the others back."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

import pytest
from threadpoolctl import threadpool_info, threadpool_limits  # type: ignore[import-untyped]

from platewheel.parts.rating.assess import assess
from platewheel.parts.rating.rate import rate
from platewheel.parts.stress.one_core import OneCore
from platewheel.parts.stress.response import respond
from tests.parts.settings import demo_setting


class BegunError(Exception):
    """Raised where the analysis would begin."""


def threads() -> set[int]:
    """Of each library of linear algebra that is loaded."""
    return {one["num_threads"] for one in threadpool_info() if one["user_api"] == "blas"}


@pytest.mark.parametrize(
    ("analysis", "begins_with"),
    [
        (assess, "rating.assess.rate"),
        (rate, "rating.rate.respond"),
        (partial(respond, contact_width_mm=20, half_length_mm=5), "stress.response.section_mesh"),
    ],
)
def test_the_analysis_runs_on_one_core(
    analysis: Callable[[Any], object], begins_with: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[set[int]] = []

    def begun(*given: object, **more: object) -> None:
        seen.append(threads())
        raise BegunError

    monkeypatch.setattr(f"platewheel.parts.{begins_with}", begun)
    with threadpool_limits(limits=2), pytest.raises(BegunError):
        analysis(demo_setting())
    assert seen == [{1}]


def test_what_was_set_is_set_again_when_the_last_ends() -> None:
    """Two that overlap, as analyses in two threads do: the first to end frees nothing."""
    core = OneCore()
    with threadpool_limits(limits=2):
        core.__enter__()
        assert threads() == {1}
        core.__enter__()
        core.__exit__()
        assert threads() == {1}
        core.__exit__()
        assert threads() == {2}
