"""Every public name is explained, and its example runs."""

from __future__ import annotations

import doctest
import inspect
import re
from collections.abc import Iterator

import pytest

import platewheel
from tests.cli.conftest import _rate_once

NAMES = [name for name in platewheel.__all__ if name != "__version__"]
UNIT = re.compile(r"\bmm3?\b|\bkg\b|\bN\b|degrees|currency|unit|kg/m3")
NO_UNIT = {"Checks", "Fault", "GeometryError", "JobFile", "NotFinished", "Proposed", "SpecError"}
NO_UNIT |= {"Built", "demo", "load"}


@pytest.fixture(scope="module")
def known(module_patch: pytest.MonkeyPatch) -> dict[str, object]:
    """What the examples take as given."""
    module_patch.setattr("platewheel.cli.script.job_file.assess", _rate_once)
    job = platewheel.demo()
    names = {name: getattr(platewheel, name) for name in NAMES}
    return names | {"platewheel": platewheel, "job": job, "spec": job.job.wheel}


def public(owner: type) -> Iterator[tuple[str, object]]:
    for name, one in vars(owner).items():
        if not name.startswith("_") and (inspect.isfunction(one) or isinstance(one, property)):
            yield name, one


@pytest.mark.parametrize("name", NAMES)
def test_a_name_is_explained_and_its_example_runs(name: str, known: dict[str, object]) -> None:
    one = getattr(platewheel, name)
    told = inspect.getdoc(one) or ""
    assert ">>>" in told
    assert name in NO_UNIT or UNIT.search(told), "its unit"
    found = doctest.DocTestFinder(recurse=name == "JobFile").find(one, name, globs=known)
    runner = doctest.DocTestRunner(optionflags=doctest.ELLIPSIS, verbose=False)
    said: list[str] = []
    for test in found:
        runner.run(test, out=said.append)
    assert (runner.failures, said) == (0, [])
    assert runner.tries > 0


@pytest.mark.parametrize("name", [n for n in NAMES if inspect.isclass(getattr(platewheel, n))])
def test_what_a_record_offers_is_explained(name: str) -> None:
    owner = getattr(platewheel, name)
    bare = [key for key, one in public(owner) if not inspect.getdoc(getattr(owner, key, one))]
    assert bare == []


def test_questions_to_a_job_have_an_example_each() -> None:
    kinds = dict(public(platewheel.JobFile))
    assert [key for key, one in kinds.items() if ">>>" not in (inspect.getdoc(one) or "")] == []
    assert {"check", "rate", "nest", "cost", "solids", "build"} <= set(kinds)
