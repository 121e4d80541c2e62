"""Jobs that share a rack: each piece is one job's, told by name, from any folder."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import pytest

from platewheel.cli.job.job import read_job
from platewheel.cli.refit.job import refit_job
from tests.cli.jobs import ROWS, files_of, job_text, refused, run, write_job
from tests.cli.papers.plates.pages import pages_of

PLATES = """
[[plate]]
name = "A"
thickness_mm = 5
width_mm = 400
length_mm = 500
[[plate]]
name = "B"
thickness_mm = 5
width_mm = 400
length_mm = 500
[[plate]]
name = "C"
thickness_mm = 6
width_mm = 150
length_mm = 600
[[plate]]
name = "D"
thickness_mm = 6
width_mm = 150
length_mm = 600
"""
LID = """
[[offcut]]
name = "Lid 1"
thickness_mm = 5
outline = [[0, 0], [450, 0], [450, 400], [0, 400]]
"""


@pytest.fixture(autouse=True)
def _here(own_folder: Path) -> None:
    pass


def rack(text: str = PLATES, file: str = "stock.toml") -> None:
    Path(file).write_text(text, encoding="utf-8")


def states(file: str = "stock.toml") -> dict[str, tuple[str, str | None]]:
    table = tomllib.loads(Path(file).read_text("utf-8"))
    rows = [row for rows in table.values() for row in rows]
    return {row["name"]: (row.get("state", "free"), row.get("job")) for row in rows}


def nest(name: str, *options: str, rows: str = "", folder: str = ".", **changes: str) -> Any:
    Path(folder).mkdir(exist_ok=True)
    ledger = "stock.toml" if folder == "." else "../stock.toml"
    keys = {"job.name": f'"{name}"', "job.ledger": f'"{ledger}"'} | changes
    file = write_job(Path(folder), job_text(keys, rows=rows), f"{name}.toml")
    return run("nest", file, "--effort", "quick", "--out", f"{folder}/out", *options)


def test_a_plan_reserves_the_pieces_that_it_cuts() -> None:
    """Two wheels: four discs of 167 mm on 400 x 500, two treads on 150 x 600."""
    rack()
    result = nest("pond")
    assert result.exit_code == 0, result.stderr
    assert "reserved in stock.toml: plate A, C; when they are cut: `platewheel stock cut`" in (
        result.stderr.splitlines()
    )
    free = ("free", None)
    assert states() == {"A": ("reserved", "pond"), "B": free, "C": ("reserved", "pond"), "D": free}


def test_a_second_job_takes_others_and_a_third_finds_none() -> None:
    rack()
    assert nest("pond").exit_code == 0
    assert nest("lake", folder="elsewhere").exit_code == 0
    assert {job for _, job in states().values()} == {"pond", "lake"}
    before = files_of(Path())
    result = nest("mere")
    assert result.exit_code == 3
    assert "fit no stock" in result.stderr
    assert files_of(Path()) == before | {"mere.toml": Path("mere.toml").read_bytes()}


def test_the_same_job_again_has_its_own_pieces() -> None:
    rack()
    assert nest("pond").exit_code == 0
    first = states()
    assert nest("pond").exit_code == 0
    assert states() == first
    assert nest("pond", **{"job.wheels": "4"}).exit_code == 0
    assert set(states().values()) == {("reserved", "pond")}
    assert nest("pond", **{"job.wheels": "1"}).exit_code == 0
    assert sum(state == "free" for state, _ in states().values()) == 2


def test_a_copy_of_the_job_in_another_folder_does_not_share_its_pieces() -> None:
    rack()
    assert nest("pond", **{"job.wheels": "4"}).exit_code == 0
    assert nest("pond", folder="copy").exit_code == 3


def test_plates_to_buy_come_after_those_on_the_rack() -> None:
    rack()
    result = nest("pond", rows=ROWS, **{"job.wheels": "6"})
    assert result.exit_code == 0, result.stderr
    assert set(states().values()) == {("reserved", "pond")}


def test_papers_name_the_pieces_to_take() -> None:
    """Each reserved plate once, on the page of the layout that is cut from it."""
    rack()
    result = nest("pond", "--json", rows=ROWS, **{"job.wheels": "6"})
    assert result.exit_code == 0, result.stderr
    sheets = json.loads(result.stdout)["sheets"]
    named = [name for sheet in sheets for name in sheet["rack"]]
    assert sorted(named) == sorted(states())
    pages = pages_of(Path("out/pond/plates.pdf"))
    for page, sheet in zip(pages, sheets, strict=True):
        more = sheet["repeat"] - len(sheet["rack"])
        told = ", ".join([*sheet["rack"], *([f"{more} to buy"] if more else [])])
        assert page.says(f"plate {told} (from the rack)" if sheet["rack"] else "plate from stock")
    table = nest("pond", rows=ROWS, **{"job.wheels": "6"}).stdout
    assert "400 x 500: A, B" in table


def test_an_offcut_of_the_job_file_is_written_down_and_refused_to_the_next() -> None:
    rack("")
    assert nest("pond", rows=ROWS + LID).exit_code == 0
    assert states()["Lid 1"] == ("reserved", "pond")
    other = LID.replace("Lid 1", "lid1")
    keys = {"job.name": '"lake"', "job.ledger": '"stock.toml"'}
    (line,) = refused(job_text(keys, rows=ROWS + other)).values()
    assert line["key"] == "offcut[0].name"
    assert "job 'pond' of " in line["allowed"]
    assert "pond.toml has reserved it" in line["allowed"]
    assert 'platewheel stock give-back "pond"' in line["advice"]
    assert run("stock", "give-back", "pond").exit_code == 0
    assert nest("lake", rows=ROWS + other).exit_code == 0
    assert states()["Lid 1"] == ("reserved", "lake")


def test_what_a_job_leaves_comes_when_it_is_cut() -> None:
    rack()
    wide = ROWS.replace("length_mm = 500", "length_mm = 900")
    few = {"job.wheels": "1", "cutting.least_offcut_mm": "150"}
    assert nest("pond", rows=wide, **few).exit_code == 0
    left = tomllib.loads(Path("out/pond/offcuts.toml").read_text("utf-8"))
    names = {row["name"] for row in left.get("offcut", [])}
    coming = {name for name, state in states().items() if state == ("coming", "pond")}
    assert coming == names
    assert names
    result = run("stock", "cut", str(Path("pond.toml")))
    assert result.exit_code == 0, result.stderr
    now = states()
    assert {now[name] for name in names} == {("free", None)}
    assert ("used", "pond") in now.values()
    assert "reserved" not in {state for state, _ in now.values()}


ENDS = """
[[bar]]
name = "long"
width_mm = 50
thickness_mm = 6
length_mm = 2500
[[round]]
name = "bright"
diameter_mm = 60
length_mm = 3000
note = "upper rack"
"""


def test_ends_of_bar_and_round_come_too() -> None:
    rack(ENDS)
    changes = {"wheel.tread_from": '"bar"', "axle.bearing": '"bush"'}
    result = nest("pond", "--json", rows=ROWS, **changes)
    assert result.exit_code == 0, result.stderr
    assert states()["long"] == states()["bright"] == ("reserved", "pond")
    table = tomllib.loads(Path("stock.toml").read_text("utf-8"))
    (cut,) = json.loads(result.stdout)["cutting_lists"]
    (end,) = [row for row in table["bar"] if row.get("state") == "coming"]
    assert end["length_mm"] == int(cut["rest_mm"])
    (rest,) = tomllib.loads(Path("out/pond/offcuts.toml").read_text("utf-8"))["round"]
    (end,) = [row for row in table["round"] if row.get("state") == "coming"]
    assert (end["diameter_mm"], end["length_mm"]) == (60, rest["length_mm"])
    assert table["round"][0]["note"] == "upper rack"


def test_a_build_that_fails_leaves_the_rack_as_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    rack()
    before = states()

    def full(*about: object, **more: object) -> None:
        raise OSError(28, "No space left on device", "x.dxf")

    monkeypatch.setattr("platewheel.cli.commands.nest.write_sheets", full)
    assert nest("pond").exit_code == 3
    assert states() == before


def test_a_piece_taken_while_the_nest_was_looking_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    rack()
    plain = "platewheel.cli.commands.nest.settled"
    from platewheel.cli.job.what_fits import settled

    def slow(*about: Any, **more: Any) -> Any:
        text = PLATES.replace('name = "A"', 'name = "A"\nstate = "reserved"\njob = "lake"')
        rack(text)
        return settled(*about, **more)

    monkeypatch.setattr(plain, slow)
    result = nest("pond")
    assert result.exit_code == 3
    assert "plate 'A': job 'lake' has reserved it" in result.stderr
    assert states()["C"] == ("free", None)
    assert not Path("out", "pond").exists()


def test_the_commands_of_the_rack() -> None:
    assert run("stock", "new").exit_code == 0
    assert run("stock", "new").exit_code == 2  # not over one that is there
    rack()
    assert nest("pond").exit_code == 0
    shown = json.loads(run("stock", "list", "--json").stdout)["pieces"]
    assert {row["name"]: row["state"] for row in shown} == {
        name: state for name, (state, _) in states().items()
    }
    assert "pond" in run("stock", "list").stdout
    result = run("stock", "give-back", "lake")
    assert result.exit_code == 3
    assert "job 'lake' has nothing reserved; jobs that have: job 'pond' of " in result.stderr
    told = run("stock", "give-back", "pond").stdout.splitlines()
    assert told == ["plate 'A': free", "plate 'C': free"]
    result = run("stock", "reserve", "pond.toml", "--effort", "quick")
    assert result.exit_code == 0, result.stderr
    assert states()["A"] == ("reserved", "pond")
    assert run("stock", "cut", "pond").exit_code == 0
    assert states()["A"] == ("used", "pond")


def test_reserving_needs_a_ledger() -> None:
    write_job(Path(), job_text())
    result = run("stock", "reserve", "job.toml")
    assert result.exit_code == 2
    assert result.stderr.startswith("job.ledger: found nothing; ")


def test_a_plan_that_cuts_nothing_of_the_ledger_says_so() -> None:
    rack("")
    write_job(Path(), job_text({"job.ledger": '"stock.toml"'}))
    result = run("stock", "reserve", "job.toml", "--effort", "quick")
    assert result.exit_code == 0, result.stderr
    assert result.stderr == "nothing is reserved: the plan cuts no piece of the ledger\n"
    assert states() == {}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (None, "stock.toml: found 'No such file or directory'"),
        (PLATES + "[[plate]\n", "stock.toml:22: "),
        (PLATES.replace("600", '"long"'), "length_mm: a number above 0"),
    ],
)
def test_a_ledger_that_is_not_there_or_damaged_refuses_the_job(
    text: str | None, words: str
) -> None:
    if text is not None:
        rack(text)
    before = Path("stock.toml").read_bytes() if text is not None else b""
    result = nest("pond")
    assert result.exit_code == 2
    assert words in result.stderr
    assert not Path("out").exists()
    if text is not None:
        assert Path("stock.toml").read_bytes() == before


def test_the_buying_list_has_what_is_on_the_rack_with_nothing_to_pay(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("platewheel.cli.output.build.assess", lambda setting: None)
    monkeypatch.setattr("platewheel.cli.output.build.write_solids", lambda job, parts, folder: [])
    rack(PLATES + ENDS)
    rows = ROWS.replace("length_mm = 500", "length_mm = 500\nprice = 30")
    keys = {"job.name": '"pond"', "job.ledger": '"stock.toml"', "job.wheels": "6"}
    keys |= {"axle.bearing": '"bush"', "costs.steel_price_per_kg": "2"}
    write_job(Path(), job_text(keys, rows=rows))
    result = run("build", "job.toml", "--effort", "quick")
    assert result.exit_code in (0, 1), result.stderr
    report = json.loads(Path("out/pond/report.json").read_text("utf-8"))
    bought = [row for row in report["buying"] if row["kind"] in ("sheet", "round")]
    told = {row["item"]: (row["quantity"], row["price"]) for row in bought}
    assert told["plate 400 x 500 x 5 mm, S235, on the rack: A, B"] == (2, 0)
    assert told["plate 400 x 500 x 5 mm, S235"] == (1, 30)  # twelve discs, four a plate
    assert told["plate 150 x 600 x 6 mm, S235, on the rack: C, D"] == (2, 0)
    (bar,) = [row for row in bought if row["kind"] == "round"]
    assert bar["item"].endswith(", on the rack: bright")
    assert bar["price"] == 0
    assert any("reserved in stock.toml: plate A, B, C, D" in line for line in report["warnings"])


def test_a_refit_does_not_cut_what_its_job_has_reserved() -> None:
    rack()
    assert nest("pond").exit_code == 0
    job = read_job(Path("pond.toml"))
    again, other = {row.thickness_mm: row.count for row in job.stock}, refit_job(job)
    assert again == {5: 2, 6: 2}
    assert {row.thickness_mm: row.count for row in other.stock} == {5: 1, 6: 1}
