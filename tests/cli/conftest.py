"""Fixtures of the tests of `cli`."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from platewheel.cli.work import stopping
from platewheel.nesting.search.nest import EFFORTS
from platewheel.parts.base import interruptible
from platewheel.parts.rating.assess import Assessment, assess
from platewheel.parts.setting.setting import Setting

# for a module: its fixtures that build a job once are quick too


@pytest.fixture(scope="module")
def module_patch() -> Iterator[pytest.MonkeyPatch]:
    with pytest.MonkeyPatch.context() as patch:
        yield patch


@pytest.fixture(autouse=True)
def a_run_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """A command is a process of its own: what another test has put in place is none of its."""
    monkeypatch.setattr(stopping, "_STATE", stopping._State())
    monkeypatch.setattr(interruptible, "_HEARERS", [])
    monkeypatch.setattr(interruptible, "_KEPT", [])


@pytest.fixture(autouse=True, scope="module")
def nest_quickly(module_patch: pytest.MonkeyPatch) -> None:
    """The command line's own tests do not wait for the full search; it has its own."""
    module_patch.setitem(EFFORTS, "normal", EFFORTS["quick"])


@pytest.fixture(autouse=True, scope="module")
def in_one_process(module_patch: pytest.MonkeyPatch) -> None:
    """What a test puts in place of the analysis stands in this process alone."""
    module_patch.setattr("platewheel.cli.work.beside._alone", lambda: False)


@pytest.fixture(autouse=True, scope="module")
def rate_once(module_patch: pytest.MonkeyPatch) -> None:
    """Builds of one wheel share its stress analysis, on a coarse mesh: rating has its own tests."""
    module_patch.setattr("platewheel.cli.output.build.assess", _rate_once)


@pytest.fixture(autouse=True, scope="module")
def calculated_elsewhere(module_patch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> None:
    """Builds leave the calculation out, which takes a third of them, but where CALCULATED says
    that a module looks at it: it has its own tests."""
    if not getattr(request.module, "CALCULATED", False):
        module_patch.setattr(
            "platewheel.cli.output.build.calculation_pdf", lambda *given: b"%PDF-1.7"
        )


@cache
def _rate_once(setting: Setting) -> Assessment:
    return assess(setting, size_mm=4.0)
