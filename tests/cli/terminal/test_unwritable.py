"""No home, no place for temporary files or compiled code: all goes on, and no library speaks."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from platewheel.cli.terminal.run import NO_HOME, _sound_environment
from platewheel.cli.terminal.width import UNTOLD
from platewheel.cli.terminal.width import columns as columns_of

NO_PLACE = "/dev/null/nothing"
COMPILED = """
import numba.core.caching as caching
caching.CacheImpl._locator_classes = []  # as where neither package nor home can be written in
from platewheel.nesting.search.compiled import kernel
import numpy

@kernel
def doubled(numbers):
    return 2 * numbers

assert doubled(numpy.ones(2)).tolist() == [2, 2]
"""
KEPT = """
from numba import config
from platewheel.nesting.search import move, separate

own = [one for one in (*vars(move).values(), *vars(separate).values()) if hasattr(one, "_cache")]
print(*{one._cache.cache_path for one in own})
assert not config.CACHE_DIR  # other users of numba keep their own
"""
NOISY = """
import logging, os, pwd, sys, warnings
from platewheel.cli.terminal.run import run

def nobody(number):
    raise KeyError(number)

def command():
    logging.getLogger("library").warning("cannot create a cache")
    warnings.warn("deprecated")
    import ezdxf
    import reportlab.pdfgen.canvas
    ezdxf.new()
    print(os.path.expanduser("~"))

pwd.getpwuid = nobody
sys.exit(run(command))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="paths of POSIX")
@pytest.mark.parametrize(
    "home", [{"HOME": NO_PLACE}, {"HOME": os.devnull}, {}], ids=["below-a-file", "a-file", "none"]
)
def test_libraries_go_without_a_home_and_are_quiet(home: dict[str, str], tmp_path: Path) -> None:
    kept = {key: os.environ[key] for key in ("PATH", "LANG") if key in os.environ}
    done = subprocess.run(
        [sys.executable, "-c", NOISY],
        env=kept | home | {"TMPDIR": NO_PLACE},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == f"{NO_HOME}\n"


def test_compiled_code_without_a_place_is_compiled_each_time() -> None:
    done = subprocess.run(
        [sys.executable, "-c", COMPILED], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.skipif(sys.platform != "linux", reason="by the XDG Base Directory Specification")
def test_compiled_code_is_kept_with_the_users_caches(tmp_path: Path) -> None:
    """Beside the sources it would stay behind when pip takes the package away."""
    kept = {key: value for key, value in os.environ.items() if key != "NUMBA_CACHE_DIR"}
    done = subprocess.run(
        [sys.executable, "-c", KEPT],
        env=kept | {"XDG_CACHE_HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    (place,) = done.stdout.split()
    assert Path(place).parent == tmp_path / "platewheel"


@pytest.mark.parametrize("columns", ["\N{SUPERSCRIPT TWO}", "9" * 5000, "99999999", "-5", "0", ""])
def test_a_width_that_no_terminal_has_is_not_said(
    columns: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """str.isdigit() is true of superscripts, int() of them fails: a library asks both."""
    monkeypatch.setenv("COLUMNS", columns)
    monkeypatch.setenv("LINES", "50")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    monkeypatch.setenv("XDG_CACHE_HOME", "here")
    monkeypatch.setenv("OMP_NUM_THREADS", "many")
    _sound_environment()
    gone = {"COLUMNS", "SOURCE_DATE_EPOCH", "XDG_CACHE_HOME", "OMP_NUM_THREADS"}
    assert not gone & {*os.environ}
    assert os.environ["LINES"] == "50"
    monkeypatch.setenv("COLUMNS", columns)  # in a script, or where a person set it since
    assert columns_of(sys.stdout, asked=True) in (None, UNTOLD, *range(20, 1000))


@pytest.mark.parametrize("name", ["HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME"])
def test_a_folder_that_may_not_be_looked_into_is_as_none(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As who owns everything, a test cannot be kept out: the system is asked in its place."""
    closed = tmp_path / "closed"
    closed.mkdir()
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv(name, str(closed))
    _sound_environment()
    assert os.environ[name] == str(closed)  # open still
    monkeypatch.setattr(os, "access", lambda path, mode: str(path) != str(closed))
    _sound_environment()
    assert os.environ.get(name) == (NO_HOME if name == "HOME" else None)
