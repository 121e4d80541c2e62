"""Whatever the bytes of a job file: a table of checks or faults told, never a traceback."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from platewheel.nesting.stock.stock import Cutting
from platewheel.parts.setting.finish import FinishSpec
from platewheel.parts.setting.track import TrackSpec
from platewheel.parts.setting.wagon import WagonSpec
from platewheel.parts.wheel.spec import WheelSpec
from tests.cli.jobs import BASE, LINE, job_text, run, write_job
from tests.places import DEMO

DEMO = DEMO.read_text(encoding="utf-8")
FEW = settings(
    max_examples=70,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
NUMBERS = "0 -0.0 -1 1 2 5 7.5 24 45 90 100 300 2000 1e-308 5e-324 1e308 -1e308 nan inf 1e9999"
OTHERS = 'true "" "60" "S355" "pipe" "bar" [] [[]] {} 1979-05-27 07:32:00 0x7fffffffffffffffffff'
VALUES = st.sampled_from(f"{NUMBERS} {OTHERS}".split(" ")) | st.floats(0, 400).map(repr)
KEYS = [f"{section}.{key}" for section, keys in BASE.items() for key in keys] + [
    f"{section}.{key}"
    for section, kind in (
        ("track", TrackSpec),
        ("wagon", WagonSpec),
        ("wheel", WheelSpec),
        ("finish", FinishSpec),
        ("cutting", Cutting),
    )
    for key in kind.model_fields
]


@pytest.fixture(autouse=True)
def _here(own_folder: Path) -> Iterator[None]:
    yield
    assert [path.name for path in own_folder.iterdir()] == ["job.toml"]


def told(data: str | bytes) -> int:
    """Exit code of `check`, whose streams must be what that code promises."""
    write_job(Path(), data)
    result = run("check", "job.toml", "--quick", "--json")
    if result.exit_code == 2:
        assert result.stdout == ""
        assert result.stderr
        # split at "\n" alone: a key or value may hold other characters that end a line
        assert all(LINE.match(line) for line in result.stderr.split("\n")[:-1]), result.stderr
    else:
        assert result.exit_code in (0, 1), result.stderr
        verdicts = [row["verdict"] for row in json.loads(result.stdout)["checks"]]
        assert ("fail" in verdicts) == (result.exit_code == 1)
        notes = result.stderr.split("\n")[:-1]  # of stock that a build would lack, and what is odd
        asked = ("; add one for a build", "; did you mean ")
        assert all(any(words in note for words in asked) for note in notes), result.stderr
    return int(result.exit_code)


@FEW
@given(st.binary(max_size=400))
def test_random_bytes(data: bytes) -> None:
    assert told(data) == 2  # no random bytes make a wheel


@FEW
@given(
    st.lists(
        st.tuples(
            st.integers(0, len(DEMO)),
            st.integers(0, 12),
            st.text(max_size=4) | st.sampled_from(["[", "]]", '"', "\n", "=", "-", "e9", "nan"]),
        ),
        min_size=1,
        max_size=4,
    )
)
def test_demo_with_characters_changed(edits: list[tuple[int, int, str]]) -> None:
    text = DEMO
    for at, count, put in edits:
        text = text[:at] + put + text[at + count :]
    told(text.encode("utf-8", errors="surrogatepass"))


@FEW
@given(st.data())
def test_demo_with_lines_moved(data: st.DataObject) -> None:
    lines = DEMO.splitlines()
    for _ in range(data.draw(st.integers(1, 3))):
        line = lines.pop(data.draw(st.integers(0, len(lines) - 1)))
        for _ in range(data.draw(st.integers(0, 2))):  # left out, moved, or there twice
            lines.insert(data.draw(st.integers(0, len(lines))), line)
    told("\n".join(lines))


@settings(FEW, max_examples=100)
@given(st.dictionaries(st.sampled_from(KEYS), VALUES, min_size=1, max_size=5))
def test_any_value_for_any_key(changes: dict[str, str]) -> None:
    told(job_text(changes))
