"""Would the tests notice? Changes one operator or number at a time and counts what is missed.

Run by hand: python -m tests.bench.mutants [MODULE ...] [--most N] [--seed S] [--tell]
Needs `pip install cosmic-ray`, whose operators make the changes (mutants). The study runs in a
throw-away copy of the tree whose own links are imported, never the files you edit. Each mutant
meets the test files that `noticed.MODULES` names for its module, in a fork of a process that has
the large libraries loaded; a test that fails, or one that never ends, kills it.

Left out, as they change no result: annotations and what is under TYPE_CHECKING; `frozen=` and
`strict=`, which guard only against writing and unequal lengths; the `*` of a signature; `==` made
`is`; bit operations put for arithmetic, which every number with a point refuses.
A mutant that lives and is no fault is named in `equal_mutants.EQUAL` or `equal_noticed`, by its
changed line and with the reason.
"""

from __future__ import annotations

import argparse
import ast
import importlib
import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.bench.equal_mutants import EQUAL
from tests.bench.equal_noticed import EQUAL_NOTICED
from tests.bench.noticed import MODULES

ROOT = Path(__file__).resolve().parents[2]
HERE_FLAG = "--in-copy"  # told to the study's own second start, in the copy
LIBRARIES = """
    pytest hypothesis xdist numpy scipy.interpolate scipy.optimize scipy.sparse.linalg scipy.spatial
    skfem skfem.helpers pydantic shapely ezdxf typer rich threadpoolctl numba cadquery
"""  # loaded before the fork; none of them imports what is changed
BITS = {"RShift", "LShift", "BitOr", "BitAnd", "BitXor"}
GUARDS = {"frozen", "strict"}


@dataclass(frozen=True)
class Mutant:
    """One change: where, by which operator, the line before and after."""

    row: int
    operator: str
    occurrence: int
    code: str
    before: str
    after: str


def main() -> None:
    """Copies the tree and starts again inside; there, prints the table and who lives."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("modules", nargs="*", help="installed names, or their ends; default all")
    parser.add_argument("--most", type=int, default=0, help="of a module, drawn at random; 0 = all")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--tell", action="store_true", help="tell each mutant as it is tried")
    parser.add_argument(HERE_FLAG, dest="here", action="store_true", help=argparse.SUPPRESS)
    given = parser.parse_args()
    if not given.here:
        sys.exit(_in_a_copy(sys.argv[1:]))
    names = [
        name
        for name in MODULES
        if not given.modules or any(f".{name}".endswith(f".{end}") for end in given.modules)
    ]
    for library in LIBRARIES.split():
        try:
            importlib.import_module(library)
        except ImportError:
            print(f"without {library}")
    lines: list[str] = []
    lives: list[str] = []
    for name in names:
        line, alive = _study(name, given.most, given.seed, given.tell)
        lines.append(line)
        lives += alive
        print(line, flush=True)
    print(f"\n{'module':34} {'mutants':>7} {'killed':>7} {'lived':>6} {'equal':>6} {'score':>6}")
    print("\n".join([*lines, "", *lives]))


def _in_a_copy(arguments: Sequence[str]) -> int:
    """Runs this module in a copy of what git knows or would take in, with links of its own."""
    with tempfile.TemporaryDirectory(prefix="mutants-") as name:
        copy = Path(name)
        listing = ["git", "ls-files", "-co", "--exclude-standard"]
        told = subprocess.check_output(listing, cwd=ROOT, text=True)
        for path in map(Path, told.splitlines()):
            if (ROOT / path).is_file():
                (copy / path).parent.mkdir(parents=True, exist_ok=True)
                shutil.copy(ROOT / path, copy / path)
        subprocess.run([copy / ".ci" / "tree"], check=True)
        own = {
            "PYTHONPATH": os.pathsep.join([str(copy / "build" / "tree"), str(copy)]),
            "OPENBLAS_NUM_THREADS": "1",
            "OMP_NUM_THREADS": "1",
        }
        command = [sys.executable, "-m", "tests.bench.mutants", HERE_FLAG, *arguments]
        return subprocess.run(command, cwd=copy, env=os.environ | own, check=False).returncode


def _study(name: str, most: int, seed: int, tell: bool) -> tuple[str, list[str]]:
    """The module's line of the table, and its survivors."""
    path = ROOT.joinpath("build", "tree", *name.split(".")).with_suffix(".py").resolve()
    if not path.is_relative_to(ROOT):
        raise SystemExit(f"{path} is not in the copy")
    mutants = _mutants(path)
    whole = path.read_text("utf-8")
    began = time.perf_counter()
    if _dies(name, path, 600.0, first=True):
        raise SystemExit(f"{name}: the tests fail without a change, or import another tree")
    patience = 10 + 5 * (time.perf_counter() - began)
    if most and most < len(mutants):
        mutants = sorted(random.Random(seed).sample(mutants, most), key=lambda m: m.row)
    equal, lived = (EQUAL | EQUAL_NOTICED).get(name, {}), []
    loaded = set(sys.modules)
    for below in _imports(whole):  # they do not import the module: imports run one way
        importlib.import_module(below)
    for mutant in mutants:
        path.write_text(mutant.code, "utf-8")
        try:
            dies = _dies(name, path, patience)
        finally:
            path.write_text(whole, "utf-8")
        if tell:
            print("killed" if dies else "LIVES ", mutant.row, mutant.after, flush=True)
        if not dies:
            lived.append(mutant)
    for extra in set(sys.modules) - loaded:
        del sys.modules[extra]
    told = []
    for mutant in lived:
        why = equal.get(mutant.after)
        told.append(f"{path.relative_to(ROOT)}:{mutant.row} {mutant.operator}")
        told += [f"  - {mutant.before}", f"  + {mutant.after}"]
        told.append(f"  equal: {why}" if why else "  NOT NAMED in EQUAL")
    named = sum(mutant.after in equal for mutant in lived)
    killed = len(mutants) - len(lived)
    share = f"{killed / len(mutants):6.0%}" if mutants else "     -"
    short = name.removeprefix("platewheel.")
    return f"{short:34} {len(mutants):7} {killed:7} {len(lived):6} {named:6} {share}", told


def _mutants(path: Path) -> list[Mutant]:
    """All changes of cosmic-ray's operators but those that change no result."""
    from cosmic_ray.commands.init import init
    from cosmic_ray.mutating import mutate_code
    from cosmic_ray.plugins import get_operator
    from cosmic_ray.work_db import WorkDB, use_db

    code = path.read_text("utf-8")
    plain, lines = _meaning(code), code.splitlines()
    found = []
    with (
        tempfile.TemporaryDirectory() as folder,
        use_db(Path(folder) / "session.sqlite", WorkDB.Mode.create) as session,
    ):
        init([path], session, {})
        for (spec,) in (item.mutations for item in session.work_items):
            words = spec.operator_name.split("/")[-1].split("_")
            if words[0] == "ReplaceBinaryOperator" and words[2] in BITS and words[1] not in BITS:
                continue
            if words[0] == "ReplaceComparisonOperator" and words[2] in {"Is", "IsNot"}:
                continue
            operator = get_operator(spec.operator_name)(**spec.operator_args)
            changed = mutate_code(code, operator, spec.occurrence)
            if not changed or _meaning(changed) in {plain, None}:
                continue
            before, after = _differing(lines, changed.splitlines())
            name = spec.operator_name.removeprefix("core/")
            found.append(Mutant(spec.start_pos[0], name, spec.occurrence, changed, before, after))
    return sorted(found, key=lambda one: (one.row, one.operator, one.occurrence))


def _imports(code: str) -> list[str]:
    """The project's own modules that a file imports."""
    froms = (node for node in ast.walk(ast.parse(code)) if isinstance(node, ast.ImportFrom))
    names = (node.module or "" for node in froms)
    return [name for name in names if name.startswith("platewheel.")]


def _differing(old: Sequence[str], new: Sequence[str]) -> tuple[str, str]:
    """The lines that differ, without what is the same before and after."""
    first = next(i for i, pair in enumerate(zip(old, new, strict=False)) if pair[0] != pair[1])
    last = next(
        i
        for i, pair in enumerate(zip(reversed(old), reversed(new), strict=False))
        if pair[0] != pair[1]
    )
    return tuple(  # type: ignore[return-value]
        " / ".join(line.strip() for line in lines[first : max(first + 1, len(lines) - last)])
        for lines in (old, new)
    )


class _Plain(ast.NodeTransformer):
    """Takes out what changes no result, so that two trees can be set side by side."""

    def visit_AnnAssign(self, node: ast.AnnAssign) -> Any:
        node.annotation = ast.Constant(0)
        return self.generic_visit(node)

    def visit_arg(self, node: ast.arg) -> Any:
        node.annotation = None
        return node

    def visit_arguments(self, node: ast.arguments) -> Any:
        self.generic_visit(node)
        every = [*node.posonlyargs, *node.args, *node.kwonlyargs]
        worth = [*node.defaults, *(one for one in node.kw_defaults if one)]
        return ast.arguments([], every, node.vararg, [], [], node.kwarg, worth)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> Any:
        node.returns = None
        return self.generic_visit(node)

    def visit_If(self, node: ast.If) -> Any:
        if any(isinstance(n, ast.Name) and n.id == "TYPE_CHECKING" for n in ast.walk(node.test)):
            return None
        return self.generic_visit(node)

    def visit_keyword(self, node: ast.keyword) -> Any:
        return None if node.arg in GUARDS else self.generic_visit(node)


def _meaning(code: str) -> str | None:
    """The tree of what is run; None where the code is no Python."""
    try:
        tree = ast.parse(code)
    except SyntaxError:
        return None
    return ast.dump(_Plain().visit(tree))


def _dies(name: str, path: Path, patience: float, first: bool = False) -> bool:
    """Whether the tests of a module fail on the file as it is now, or never end."""
    for stale in (path.parent / "__pycache__").glob(f"{path.stem}.*"):
        stale.unlink()
    child = os.fork()
    if child == 0:
        os.setsid()
        os._exit(_tests(name, first))
    end = time.monotonic() + patience
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return status != 0
        time.sleep(0.01)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return True


def _tests(name: str, first: bool) -> int:
    """In the fork: pytest's verdict, 0 for all passed. The first time leaves compiled files."""
    import pytest

    sys.dont_write_bytecode = not first
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    if not first:
        os.dup2(quiet, 2)
    try:
        told = pytest.main(["-x", "-q", "-n", "0", "-p", "no:cacheprovider", *MODULES[name]])
    except BaseException:
        return 1
    file = sys.modules[name].__file__ if name in sys.modules else None
    if first and not (file and Path(file).resolve().is_relative_to(ROOT)):
        return 1
    return int(told)


if __name__ == "__main__":
    main()
