"""How the packages are built: imports one way, small files, heavy libraries inside functions."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import cli.main

ROOT = Path(cli.main.__file__).parents[1]
PACKAGES = ("parts", "nesting", "cli")
FILES = sorted(path for name in PACKAGES for path in (ROOT / name).rglob("*.py"))
MAY_IMPORT = {  # package -> packages of ours that it may know
    "parts": {"parts"},
    "nesting": {"parts", "nesting"},
    "cli": {"parts", "nesting", "cli"},
}
INSIDE_ONLY = {"cadquery", "OCP", "ezdxf", "reportlab", "shapely", "scipy"}
OURS = {"SpecError", "GeometryError", "NestingError", "NotFinished"}

each_file = pytest.mark.parametrize(
    "path", FILES, ids=[str(path.relative_to(ROOT)) for path in FILES]
)


def imports(tree: ast.AST) -> set[str]:
    """Top names that are imported anywhere below a node."""
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {name.name.split(".")[0] for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "a relative import"
            found.add((node.module or "").split(".")[0])
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


def parsed(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def test_the_packages_are_found() -> None:
    assert {path.relative_to(ROOT).parts[0] for path in FILES} == set(PACKAGES)
    assert len(FILES) > 30
    assert "cadquery" in imports(parsed(ROOT / "parts" / "solid.py"))  # the search finds imports
    assert "cadquery" not in on_import(parsed(ROOT / "parts" / "solid.py"))
    assert "numpy" in on_import(parsed(ROOT / "nesting" / "no_fit.py"))


@each_file
def test_imports_run_one_way(path: Path) -> None:
    package = path.relative_to(ROOT).parts[0]
    assert imports(parsed(path)) & set(PACKAGES) <= MAY_IMPORT[package]


@each_file
def test_heavy_libraries_are_imported_where_they_are_used(path: Path) -> None:
    assert on_import(parsed(path)).isdisjoint(INSIDE_ONLY)


def modules_at_top(path: Path) -> set[str | None]:
    return {node.module for node in parsed(path).body if isinstance(node, ast.ImportFrom)}


def test_compiled_modules_are_imported_where_they_are_used() -> None:
    with_numba = [path.stem for path in FILES if "numba" in imports(parsed(path))]
    assert with_numba == ["compiled"]
    compiled = {path for path in FILES if "nesting.compiled" in modules_at_top(path)}
    names = {"nesting.compiled", *(f"{path.parent.name}.{path.stem}" for path in compiled)}
    assert len(names) > 3
    for path in set(FILES) - compiled:
        assert names.isdisjoint(modules_at_top(path)), path.name


def test_the_digest_of_compiled_files_holds_all_that_they_take_in() -> None:
    from nesting.compiled import FILES as DIGESTED

    for path in FILES:
        if "nesting.compiled" in modules_at_top(path):
            own = {str(name) for name in modules_at_top(path) if str(name).startswith("nesting.")}
            needed = {path.name, *(f"{name.split('.')[1]}.py" for name in own)}
            assert needed <= set(DIGESTED)


@each_file
def test_a_file_is_short_and_named_for_its_subject(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) < 300
    assert not path.stem.startswith(("util", "helper", "common", "misc"))


@each_file
def test_a_file_says_what_it_is_for(path: Path) -> None:
    if path.name != "__init__.py":
        assert ast.get_docstring(parsed(path))


@each_file
def test_a_public_function_tells_the_errors_that_it_raises(path: Path) -> None:
    silent = []
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            raised = {
                call.func.id
                for call in (n.exc for n in ast.walk(node) if isinstance(n, ast.Raise))
                if isinstance(call, ast.Call) and isinstance(call.func, ast.Name)
            }
            told = ast.get_docstring(node) or ""
            silent += [f"{node.name}: {name}" for name in raised & OURS if name not in told]
    assert silent == []


@each_file
def test_public_names_of_parts_and_nesting_are_explained(path: Path) -> None:
    if path.relative_to(ROOT).parts[0] == "cli":
        return
    bare = [
        node.name
        for node in parsed(path).body
        if isinstance(node, ast.FunctionDef | ast.ClassDef)
        and not node.name.startswith("_")
        and not ast.get_docstring(node)
    ]
    assert bare == []


def test_the_command_line_holds_no_formula() -> None:
    modules = [path for path in FILES if path.relative_to(ROOT).parts[0] == "cli"]
    calculating = {"math", "numpy", "cadquery", "shapely", "scipy"}
    assert [path.name for path in modules if imports(parsed(path)) & calculating] == []
