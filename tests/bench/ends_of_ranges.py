"""The suite at an end of the ranges of pyproject.toml; `oldest.sh` and `newest.sh` call it.

The oldest are the bounds themselves, so that one which no release bears, or which does not go with
the others, fails here; what they need in turn is the newest that goes with them. Without arguments
ruff, import-linter and the pages follow the suite, and mypy at the newest end alone: old libraries
have other hints of types. Exit code: the first that is not 0. Needs Python 3.11, its venv and pip.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
RANGE = re.compile(r"(?P<name>[\w.-]+)>=(?P<least>[\d.]+),<[\d.]+")
Version = tuple[int, ...]


def version_of(python: str) -> Version | None:
    """Of an interpreter that can make environments; None of one that cannot, or is no release."""
    code = "import ensurepip, sys, venv; v = sys.version_info; print(*v[:3]); exit(v[3] != 'final')"
    done = subprocess.run([python, "-c", code], capture_output=True, text=True, check=False)
    return tuple(map(int, done.stdout.split())) if done.returncode == 0 else None


def pythons() -> dict[Version, str]:
    """Those on the path, and those that pyenv keeps."""
    kept = Path(os.environ.get("PYENV_ROOT") or Path.home() / ".pyenv", "versions")
    places = [Path(place) for place in os.get_exec_path()] + sorted(kept.glob("*/bin"))
    found = {str(one) for place in places for one in place.glob("python3.[0-9]*")}
    plain = sorted(one for one in found if re.fullmatch(r"python3\.\d+", Path(one).name))
    return {version: one for one in plain if (version := version_of(one))}


def chosen(end: str, least: Version) -> str:
    """The interpreter of an end.

    Raises:
        SystemExit: none of this machine is at that end.
    """
    able = {version: one for version, one in pythons().items() if version >= least}
    if end == "oldest":
        able = {version: one for version, one in able.items() if version[: len(least)] == least}
    if not able:
        raise SystemExit(f"no Python {'.'.join(map(str, least))} on this machine has venv")
    return able[min(able) if end == "oldest" else max(able)]


def bounds_of(project: dict[str, Any]) -> dict[str, str]:
    """Lower bounds by the name of what is asked for, all extras with it."""
    extras = project["optional-dependencies"].values()
    lines = [*project["dependencies"], *(line for extra in extras for line in extra)]
    found = [RANGE.fullmatch(line) or sys.exit(f"not a range: {line}") for line in lines]
    return {one["name"]: one["least"] for one in found}


def main() -> None:
    """Install, say what was installed, test."""
    end, *asked = sys.argv[1:]
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    bounds = bounds_of(project)
    least = tuple(map(int, project["requires-python"].removeprefix(">=").split(".")))
    home = Path(tempfile.mkdtemp(prefix=f"{end}-"))
    bin_ = home / "venv" / "bin"

    def run(*command: str | Path) -> None:
        done = subprocess.run([*map(str, command)], cwd=ROOT, check=False)
        if done.returncode:
            raise SystemExit(done.returncode)

    try:
        run(chosen(end, least), "-m", "venv", home / "venv")
        pins = [f"{name}=={bound}" for name, bound in bounds.items()] if end == "oldest" else []
        extras = ",".join(project["optional-dependencies"])
        report = home / "report.json"
        install = (bin_ / "pip", "install", "-q", "--report", report)
        run(*install, "-e", f".[{extras}]", *pins)
        got = json.loads(report.read_text())["install"]
        of = {one["metadata"]["name"].lower(): one["metadata"]["version"] for one in got}
        run(bin_ / "python", "-VV")
        print(*(f"{name} {of[name.lower()]}" for name in bounds), sep=", ", flush=True)
        yanked = [one["metadata"]["name"] for one in got if one.get("is_yanked")]
        if yanked:
            raise SystemExit(f"withdrawn by its makers: {', '.join(yanked)}")
        run(bin_ / "python", "-m", "pytest", *asked)
        if not asked:
            run(bin_ / "ruff", "check", ".")
            run(bin_ / "ruff", "format", "--check", ".")
            run(".ci/tree")
            run("env", "PYTHONPATH=build/tree", bin_ / "lint-imports", "--config", ".importlinter")
            run(bin_ / "python", "-m", "platewheel.cli.site.build", home / "site")
        if not asked and end == "newest":
            run(bin_ / "mypy")
    finally:
        shutil.rmtree(home)


if __name__ == "__main__":
    main()
