"""A job folder is complete, every file of it opens, and its numbers hold together."""

from __future__ import annotations

import json
import math
import os
import re
import runpy
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import ezdxf
import pypdf
import pytest

from platewheel.cli.output.made_of import MADE_OF
from platewheel.cli.refit.rings_file import COLUMNS
from platewheel.cli.schema.report import Report
from platewheel.cli.words.plain import plain
from tests.cli.jobs import NAME, files_of, job_text, run, write_job
from tests.places import ROOT

CALCULATED = True  # calculation.pdf is one of the files
BLANKS = ("disc", "flange", "tread")
TEMPLATES = ("disc", "tread", "small-parts")  # of flange, strip and both plywood gauges
PARTS = (*BLANKS, "hub-tube")


@pytest.fixture(scope="module")
def job_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_job(tmp_path_factory.mktemp("job"), job_text({"cutting.price_per_h": "60"}))


@pytest.fixture(scope="module")
def folder(job_file: Path) -> Path:
    """The small job, built."""
    out = job_file.parent / "out"
    result = run("build", job_file, "--out", out)
    assert result.exit_code == 0, result.stderr
    assert result.stderr == ""  # no progress where nobody watches
    assert "job-sheet.html" in result.stdout
    assert "0 fail" in result.stdout.splitlines()[-1]
    assert [path.name for path in out.iterdir()] == [NAME]  # no temporary folder stays
    return out / NAME


@pytest.fixture(scope="module")
def report(folder: Path) -> dict[str, Any]:
    text = (folder / "report.json").read_text(encoding="utf-8")

    def no_constant(name: str) -> None:
        raise AssertionError(f"{name} is no JSON")

    loaded = json.loads(text, parse_constant=no_constant)
    assert isinstance(loaded, dict)
    return loaded


def test_every_file_of_the_design_is_there_and_no_other(
    folder: Path, report: dict[str, Any]
) -> None:
    sheets = [row["file"] for row in report["sheets"]]
    assert sheets == ["sheets/5mm-1.dxf", "sheets/6mm-1.dxf"]
    expected = {
        *("report.json", "job-sheet.html", "job-sheet.pdf", "standards.pdf", "calculation.pdf"),
        *("offcuts.toml", "offcuts-used.toml", "plates.pdf", MADE_OF),
        *("blanks", "sheets", "solids", "templates"),
        *(f"solids/{name}.step" for name in (*PARTS, "wheel")),
        "solids/wheel.glb",
        *(f"blanks/{name}.dxf" for name in BLANKS),
        *(f"templates/{name}.pdf" for name in TEMPLATES),
        *sheets,
    }
    assert set(files_of(folder)) == expected
    assert {row["step"] for row in report["parts"]} == {f"solids/{name}.step" for name in PARTS}
    assert {row["file"] for row in report["blanks"]} == {f"blanks/{name}.dxf" for name in BLANKS}


def test_step_files_are_iso_10303_21_and_name_their_parts(folder: Path) -> None:
    for path in (folder / "solids").glob("*.step"):
        text = path.read_text()
        assert text.startswith("ISO-10303-21;")  # ISO 10303-21, first and last token of a file
        assert text.rstrip().endswith("END-ISO-10303-21;")
        assert f"'{path.stem}'" in text
    wheel = (folder / "solids" / "wheel.step").read_text()
    for name in ("tread", "disc-field", "disc-gauge", "flange-1", "flange-3", "hub-tube"):
        assert f"'{name}'" in wheel


def test_dxf_files_open_and_hold_what_the_report_says(folder: Path, report: dict[str, Any]) -> None:
    rows = {row["name"]: row for row in report["blanks"]}
    for name in BLANKS:
        space = ezdxf.readfile(folder / rows[name]["file"]).modelspace()
        assert len(space.query('*[layer=="cut-outline"]')) == 1
    for sheet in report["sheets"]:
        drawing = ezdxf.readfile(folder / sheet["file"])
        assert drawing.units == 4  # $INSUNITS 4: millimetres, DXF reference
        space = drawing.modelspace()
        assert len(space.query('*[layer=="cut-outline"]')) == len(sheet["placements"])
        rims = [e.get_points("xy") for e in space.query('LWPOLYLINE[layer=="cut-outline"]')]
        discs = [points for points in rims if len(points) == 2]  # two half turns
        assert sorted(
            (round((ax + bx) / 2, 6), round((ay + by) / 2, 6)) for (ax, ay), (bx, by) in discs
        ) == sorted((p["x_mm"], p["y_mm"]) for p in sheet["placements"] if p["blank"] == "disc")
        for one, other in discs:
            assert math.dist(one, other) == pytest.approx(rows["disc"]["diameter_mm"])


def test_templates_are_pdf_of_the_pages_told(folder: Path, report: dict[str, Any]) -> None:
    assert len(report["templates"]) == len(TEMPLATES)
    for row in report["templates"]:
        path = folder / row["file"]
        assert path.read_bytes().startswith(b"%PDF-")  # ISO 32000-1, 7.5.2
        assert len(pypdf.PdfReader(path).pages) == row["pages"]


def conforms(value: Any, schema: dict[str, Any], defs: dict[str, Any]) -> bool:
    """Whether a value fits the few words of JSON Schema that the report's schema uses."""
    if "$ref" in schema:
        return conforms(value, defs[schema["$ref"].rsplit("/", 1)[1]], defs)
    if "anyOf" in schema:
        return any(conforms(value, choice, defs) for choice in schema["anyOf"])
    if "enum" in schema:
        return value in schema["enum"]
    kind = schema["type"]
    if kind == "array":
        return isinstance(value, list) and all(conforms(v, schema["items"], defs) for v in value)
    if kind == "object" and "properties" in schema:
        assert schema["additionalProperties"] is False
        return (
            isinstance(value, dict)
            and set(schema["required"]) <= set(value) <= set(schema["properties"])
            and all(conforms(v, schema["properties"][k], defs) for k, v in value.items())
        )
    if kind == "object":
        rows = value.values() if isinstance(value, dict) else [object()]
        return all(conforms(v, schema["additionalProperties"], defs) for v in rows)
    types = {"string": str, "number": (int, float), "integer": int, "boolean": bool}
    is_bool = isinstance(value, bool)
    return (
        value is None
        if kind == "null"
        else isinstance(value, types[kind]) and (is_bool == (kind == "boolean"))
    )


def test_the_report_fits_its_schema(report: dict[str, Any]) -> None:
    printed = run("schema")
    assert printed.exit_code == 0
    schema = json.loads(printed.stdout)
    assert conforms(report, schema, schema["$defs"])
    for path in (("wheel", "mass_kg"), ("nesting", "unplaced"), ("job", "name")):
        broken = json.loads(json.dumps(report))
        broken[path[0]][path[1]] = {"no": "such"}
        assert not conforms(broken, schema, schema["$defs"])  # the check can fail
    assert json.loads(Report.model_validate(report).model_dump_json()) == report


def test_the_report_has_the_keys_that_others_rely_on(report: dict[str, Any]) -> None:
    def each(rows: Any, keys: str) -> None:
        assert rows
        for row in rows if isinstance(rows, list) else [rows]:
            assert set(keys.split()) <= set(row)

    each(report["wheel"], "mass_kg tread_diameter_mm")
    each(report["parts"], "name count_per_wheel volume_mm3 mass_kg step")
    each(report["blanks"], "name thickness_mm count area_mm2 cut_length_mm file")
    each(
        report["sheets"],
        "file stock thickness_mm repeat width_mm length_mm parts_area_mm2 scrap_percent placements",
    )
    each(
        [placement for sheet in report["sheets"] for placement in sheet["placements"]],
        "blank x_mm y_mm rotation_deg",
    )
    each(
        report["nesting"],
        "sheets_used stock_area_mm2 parts_area_mm2 scrap_percent scrap_percent_after_offcuts "
        "unplaced",
    )
    each(report["checks"], "id title value limit unit margin at_most verdict says source")
    assert {c["verdict"] for c in report["checks"]} <= {"pass", "warn", "fail", "not-assessed"}
    assert all(check["source"] and check["says"] for check in report["checks"])


def test_sums_of_the_nest_agree_with_its_sheets(report: dict[str, Any]) -> None:
    sheets, nesting = report["sheets"], report["nesting"]
    assert nesting["unplaced"] == []
    assert nesting["sheets_used"] == sum(s["repeat"] for s in sheets)
    stock = sum(s["repeat"] * s["width_mm"] * s["length_mm"] for s in sheets)
    assert nesting["stock_area_mm2"] == pytest.approx(stock)
    for blank in report["blanks"]:
        laid = sum(
            s["repeat"] for s in sheets for p in s["placements"] if p["blank"] == blank["name"]
        )
        assert laid == blank["count"]
    area = math.fsum(b["count"] * b["area_mm2"] for b in report["blanks"])
    assert nesting["parts_area_mm2"] == pytest.approx(area)
    scrap = 100 * (1 - area / stock)
    assert nesting["scrap_percent"] == pytest.approx(scrap)
    assert 0 <= nesting["scrap_percent_after_offcuts"] <= nesting["scrap_percent"]
    cut = math.fsum(b["count"] * b["cut_length_mm"] for b in report["blanks"])
    assert nesting["cut_length_mm"] == pytest.approx(cut)
    assert nesting["cutting_price"] == pytest.approx(60 * nesting["cutting_hours"])


class Page(HTMLParser):
    """Tags, attributes and words of the job sheet; unbalanced tags stop it."""

    VOID = ("meta", "br", "hr", "img", "input", "path", "circle")

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.words: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(key, value or "") for key, value in attrs]
        if tag not in self.VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(key, value or "") for key, value in attrs]

    def handle_endtag(self, tag: str) -> None:
        assert self._open
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def test_the_job_sheet_stands_alone(folder: Path, report: dict[str, Any]) -> None:
    page = Page()
    text = (folder / "job-sheet.html").read_text(encoding="utf-8")
    assert len(text.encode()) < 5_000_000
    page.feed(text)
    page.close()
    assert not {"link", "iframe", "object", "embed", "base"} & set(page.tags)
    assert not {"src", "srcset", "action"} & {key for key, _ in page.attributes}
    svg = ("xmlns", "http://www.w3.org/2000/svg")
    assert not [(k, v) for k, v in page.attributes if "//" in v and (k, v) != svg]
    words = " ".join(page.words)
    assert "url(" not in words  # style sheets are among the words
    assert "@import" not in words
    labels = [value for key, value in page.attributes if key == "aria-label"]
    assert {"section of the wheel", "wheel pulled apart"} < set(labels)
    pictures = 5 + len(report["blanks"]) + len(report["sheets"])
    pictures += 5  # of the steps: run-out, tacks, rims, flange, root
    assert page.tags.count("svg") == pictures
    assert {row["name"] for row in report["blanks"]} < set(labels)
    assert all(any(row["file"] in label for label in labels) for row in report["sheets"])
    told = [row["file"] for row in (*report["blanks"], *report["sheets"])]
    told += [plain(check["says"]) for check in report["checks"]]
    assert [text for text in told if text not in words] == []


def test_another_process_writes_the_same_bytes(job_file: Path, folder: Path) -> None:
    out = job_file.parent / "again"
    lines = [  # as the fixtures of this folder have it
        "import platewheel.cli.output.build",
        "from platewheel.cli.commands.main import main",
        "from platewheel.nesting.search.nest import EFFORTS",
        "from tests.cli.conftest import _rate_once",
        "platewheel.cli.output.build.assess = _rate_once",
        "EFFORTS['normal'] = EFFORTS['quick']",
        "main()",
    ]
    done = subprocess.run(
        [sys.executable, "-c", "\n".join(lines), "build", str(job_file), "--out", str(out)],
        env=os.environ | {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert done.stderr == b""  # piped: no spinner
    first, second = files_of(folder), files_of(out / NAME)
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []


def test_a_failed_check_leaves_the_folder_and_exits_1(tmp_path: Path) -> None:
    sealed = {"wheel.vent_count": "0", "finish.coating": '"galvanized"', "job.wheels": "1"}
    result = run("build", write_job(tmp_path, job_text(sealed)), "--out", tmp_path / "o", "--json")
    assert result.exit_code == 1
    shown = json.loads(result.stdout)
    assert [c["id"] for c in shown["checks"] if c["verdict"] == "fail"] == ["sealed-hollow"]
    written = json.loads((tmp_path / "o" / NAME / "report.json").read_text())
    assert written == shown
    assert "EXPLODES" in (tmp_path / "o" / NAME / "job-sheet.html").read_text()


def test_travel_over_cut_parts_is_told_beside_its_plate(
    folder: Path, report: dict[str, Any]
) -> None:
    page = (folder / "job-sheet.html").read_text(encoding="utf-8")
    over = {row["file"]: row["travels_over_cut_parts"] for row in report["sheets"]}
    assert any(over.values())
    assert not all(over.values())
    for file, count in over.items():
        told = [line for line in page.splitlines() if f"{file}: " in line and "cut 1 off" in line]
        assert told
        assert any(f"{count} travel" in line for line in told) == bool(count)


def test_no_key_of_the_job_file_stands_on_the_job_sheet(folder: Path) -> None:
    page = (folder / "job-sheet.html").read_text(encoding="utf-8")
    seen = re.sub(r"(?s)<(script|style)\b.*?</\1>|<[^>]*>", " ", page)
    assert "fillet" in seen
    assert set(re.findall(r"\w*[a-z]_[a-z]\w*", seen)) <= set(COLUMNS)  # of rings.csv, to type


def test_the_example_of_a_script_reads_the_report(
    folder: Path, report: dict[str, Any], capsys: pytest.CaptureFixture[str], monkeypatch: Any
) -> None:
    script = ROOT / "tests" / "examples" / "report_by_its_schema.py"
    monkeypatch.setattr(sys, "argv", [script.name, str(folder / "report.json")])
    runpy.run_path(str(script))
    told = capsys.readouterr().out
    assert told.startswith(f"{NAME}: {report['job']['wheels']} wheels of ")
    assert f"platewheel {report['version']}, schema {report['schema_version']}" in told
    for row in (*report["blanks"], *(b | {"name": b["item"]} for b in report["buying"])):
        assert row["name"] in told
