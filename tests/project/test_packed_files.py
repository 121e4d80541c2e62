"""What is packed: what the folders hold by pyproject.toml, the rest by .ci/packed.in.

The archives themselves are made and used by `tests/bench/packed.sh`.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

from tests.places import ROOT

SETUPTOOLS = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]
MANIFEST = [
    line.split()
    for line in (ROOT / ".ci/packed.in").read_text("utf-8").splitlines()
    if line and not line.startswith("#")
]


def files(*folders: str) -> set[Path]:
    """Below the folders, without what Python compiled."""
    found = (path for name in folders for path in (ROOT / name).rglob("*"))
    return {path for path in found if path.is_file() and path.parent.name != "__pycache__"}


def folder_of(package: str) -> Path:
    """By the longest name in package-dir, as setuptools finds it."""
    places = SETUPTOOLS["package-dir"]
    top = max((name for name in places if f"{package}.".startswith(f"{name}.")), key=len)
    return Path(ROOT, places[top], *package.removeprefix(top).split("."))


def test_all_that_the_packages_read_is_packed() -> None:
    """In the wheel, too; none by a pattern that finds nothing, or in a folder of no package."""
    asked = [
        set(folder_of(package).glob(pattern))
        for package, patterns in SETUPTOOLS["package-data"].items()
        for pattern in patterns
    ]
    assert all(asked)
    assert set(SETUPTOOLS["package-data"]) <= set(SETUPTOOLS["packages"])
    here = files("parts", "nesting", "cli")
    assert set().union(*asked) == {path for path in here if path.suffix != ".py"}
    rooms = {folder_of(package) for package in SETUPTOOLS["packages"]}
    assert {path.parent for path in here} <= rooms


def test_tests_pictures_and_papers_for_developers_are_in_the_sdist() -> None:
    named = [name for verb, *names in MANIFEST if verb == "include" for name in names]
    assert [name for name in named if not (ROOT / name).is_file()] == []
    below = [
        set((ROOT / folder).rglob(pattern))
        for verb, folder, *patterns in MANIFEST
        if verb == "recursive-include"
        for pattern in patterns
    ]
    assert all(below)
    packed = set().union(*below, {ROOT / name for name in named})
    assert files("tests", ".ci", "out/readme") - packed == set()
    assert {verb for verb, *_ in MANIFEST} == {"include", "recursive-include"}
    assert ROOT / "DEVELOPERS.md" in packed
