"""The house's own rules, each one test that names every file which breaks it.

Which room may import which is held by import-linter (`.importlinter`), not here.
"""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import platewheel
from platewheel.nesting.search.compiled import FILES as DIGESTED
from tests.places import ROOT

FOLDERS = ("parts", "nesting", "cli")
FRONT = Path("cli", "front")  # installed as `platewheel` itself
FILES = sorted(path.relative_to(ROOT) for name in FOLDERS for path in (ROOT / name).rglob("*.py"))
# places on a page are sums
DRAWING = tuple(Path("cli/papers", name) for name in ("drawings", "drawings/plan", "charts"))
INSIDE_ONLY = {"cadquery", "OCP", "ezdxf", "reportlab", "shapely", "scipy"}
INSIDE_ONLY |= {"jinja2", "markupsafe", "typst"}
TAG = re.compile(r"</?(a|b|body|code|div|figure|h[1-6]|head|li|ol|p|pre|span|t[dhr]|table|ul)\b")
OURS = {"SpecError", "GeometryError", "NestingError", "NotFinished"}
SEARCH = "platewheel.nesting.search"
THINGS = "axle|check|combination|disc|hole|length|page|pierce|plate|ring|strip|tab|vent|wheel"
PLURAL = re.compile(rf" (?:[a-z-]+ )?(?:{THINGS})s\b")
COUNT = re.compile(r"^(count|wheels|axles|rings)$|[._](count|used|wheels|axles|pierces)$|^len\(")


@cache
def parsed(path: Path) -> ast.Module:
    return ast.parse((ROOT / path).read_text(encoding="utf-8"))


def imports(tree: ast.AST) -> set[str]:
    """Top names that are imported anywhere below a node."""
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {name.name.split(".")[0] for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            found.add("." * node.level or (node.module or "").split(".")[0])
    return found


def on_import(node: ast.AST) -> set[str]:
    """Top names imported when a module is: not in bodies of functions, not for type checks."""
    found: set[str] = set()
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Import | ast.ImportFrom):
            found |= imports(child)
        for_types = isinstance(child, ast.If) and ast.unparse(child.test) == "TYPE_CHECKING"
        if not isinstance(child, ast.FunctionDef) and not for_types:
            found |= on_import(child)
    return found


def broken(rule: Callable[[Path], object]) -> list[str]:
    """Files about which a rule has something to say, with what it says."""
    told = ((path, rule(path)) for path in FILES)
    return [f"{path}: {found}" for path, found in told if found]


def modules_at_top(path: Path) -> set[str]:
    return {node.module or "" for node in parsed(path).body if isinstance(node, ast.ImportFrom)}


def test_the_files_are_found() -> None:
    assert {path.parts[0] for path in FILES} == set(FOLDERS)
    assert len(FILES) > 250
    solid = parsed(Path("parts/geometry/solid.py"))
    assert "cadquery" in imports(solid)  # the search finds imports
    assert "cadquery" not in on_import(solid)
    assert "numpy" in on_import(parsed(Path("nesting/quick/no_fit_polygon.py")))


def test_the_folders_are_the_packages_that_are_installed() -> None:
    setuptools = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]
    rooms = {path.parent for path in FILES} - {FRONT}
    assert set(setuptools["packages"]) == {
        "platewheel",
        *(".".join(("platewheel", *room.parts)) for room in rooms),
    }
    assert len(setuptools["packages"]) == len(set(setuptools["packages"]))
    folders = {
        path.relative_to(ROOT)
        for name in FOLDERS
        for path in (ROOT / name).rglob("*")
        if path.is_dir() and path.name != "__pycache__" and any(path.iterdir())
    }
    assert folders - {FRONT} == rooms - {Path(name) for name in FOLDERS}


def test_imports_are_absolute_and_by_the_installed_name() -> None:
    assert broken(lambda path: imports(parsed(path)) & {".", "..", *FOLDERS}) == []


def test_the_front_door_opens_on_every_name_that_it_lists() -> None:
    for name in platewheel.__all__:
        assert getattr(platewheel, name) is not None


def test_heavy_libraries_are_imported_where_they_are_used() -> None:
    assert broken(lambda path: on_import(parsed(path)) & INSIDE_ONLY) == []


def test_no_tag_of_a_page_stands_in_python() -> None:
    """Pages are templates; drawings are lines of SVG, written as what they are."""

    def tags(path: Path) -> list[str]:
        if path.parts[0] != "cli" or path.parent in DRAWING:
            return []
        texts = (node.value for node in ast.walk(parsed(path)) if isinstance(node, ast.Constant))
        return [text for text in texts if isinstance(text, str) and TAG.search(text)]

    assert broken(tags) == []


def test_compiled_modules_are_imported_where_they_are_used() -> None:
    assert [path.stem for path in FILES if "numba" in imports(parsed(path))] == ["compiled"]
    compiled = {path for path in FILES if f"{SEARCH}.compiled" in modules_at_top(path)}
    names = {f"{SEARCH}.compiled", *(f"{SEARCH}.{path.stem}" for path in compiled)}
    assert len(names) > 3
    assert broken(lambda path: path not in compiled and names & modules_at_top(path)) == []


def test_the_digest_of_compiled_files_holds_all_that_they_take_in() -> None:
    for path in FILES:
        if f"{SEARCH}.compiled" in modules_at_top(path):
            own = {name for name in modules_at_top(path) if name.startswith("platewheel.")}
            assert {path.name, *(f"{name.split('.')[-1]}.py" for name in own)} <= set(DIGESTED)


def test_a_file_is_short_and_named_for_its_subject() -> None:
    def too_long(path: Path) -> str:
        lines = len((ROOT / path).read_text(encoding="utf-8").splitlines())
        return f"{lines} lines" if lines >= 300 else ""

    assert broken(too_long) == []
    assert broken(lambda path: path.stem.startswith(("util", "helper", "common", "misc"))) == []


def test_a_room_holds_few_enough_files_to_be_seen_at_a_glance() -> None:
    rooms = [path.parent for path in FILES if path.name != "__init__.py"]
    assert {str(room): rooms.count(room) for room in rooms if rooms.count(room) > 20} == {}


def test_a_file_says_what_it_is_for() -> None:
    assert broken(lambda path: not ast.get_docstring(parsed(path))) == []


def test_a_room_says_what_it_answers_and_what_it_may_import() -> None:
    def unsaid(path: Path) -> str:
        if path.name != "__init__.py" or path.parent == FRONT:
            return ""
        told = ast.get_docstring(parsed(path)) or ""
        ends = "May import:" in told and len(told.splitlines()) <= 7
        return "" if ends else "no line `May import:`, or more than seven lines"

    assert broken(unsaid) == []


def test_a_public_function_tells_the_errors_that_it_raises() -> None:
    def silent(path: Path) -> list[str]:
        found = []
        for node in ast.walk(parsed(path)):
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                told = ast.get_docstring(node) or ""
                found += [f"{node.name}: {e}" for e in raised(node) & OURS if e not in told]
        return found

    assert broken(silent) == []


def raised(node: ast.AST) -> set[str]:
    calls = (n.exc for n in ast.walk(node) if isinstance(n, ast.Raise))
    return {
        call.func.id
        for call in calls
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name)
    }


def public(path: Path) -> Iterator[ast.FunctionDef | ast.ClassDef]:
    for node in parsed(path).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            yield node


def test_public_names_are_explained() -> None:
    def bare(path: Path) -> list[str]:
        return [node.name for node in public(path) if not ast.get_docstring(node)]

    assert broken(bare) == []


def test_what_may_be_one_is_counted_by_so_many() -> None:
    """`1 plate` and `3 plates`, in every sentence that counts."""

    def plurals(path: Path) -> list[str]:
        texts = (node for node in ast.walk(parsed(path)) if isinstance(node, ast.JoinedStr))
        pairs = (pair for node in texts for pair in pairwise(node.values))
        return [
            f"{ast.unparse(one.value)}{then.value}"
            for one, then in pairs
            if isinstance(one, ast.FormattedValue)
            and isinstance(then, ast.Constant)
            and COUNT.search(ast.unparse(one.value))
            and PLURAL.match(str(then.value))
        ]

    assert broken(plurals) == []


def test_the_command_line_holds_no_formula() -> None:
    calculating = {"math", "numpy", "cadquery", "shapely", "scipy"}

    def calculates(path: Path) -> set[str]:
        if path.parts[0] != "cli" or path.parent in DRAWING:
            return set()
        known = {"cadquery"} if path.parent.name == "script" else set()  # the type of a solid
        return imports(parsed(path)) & (calculating - known)

    assert broken(calculates) == []
