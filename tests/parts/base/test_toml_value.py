"""Values as TOML: whatever a user calls a thing reads back as it was called."""

from __future__ import annotations

import tomllib

from hypothesis import example, given
from hypothesis import strategies as st

from platewheel.parts.base.spec_model import toml_value

NAMES = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)  # no lone surrogates


@given(name=NAMES)
@example(name='a "plate"\nwith a line break\\')
@example(name="tab\there\r\x00\x7f")
def test_text_reads_back(name: str) -> None:
    assert tomllib.loads(f"x = {toml_value(name)}")["x"] == name


@given(names=st.lists(NAMES, max_size=4))
def test_lists_read_back(names: list[str]) -> None:
    assert tomllib.loads(f"x = {toml_value(names)}")["x"] == names


def test_numbers_read_back_to_twelve_digits() -> None:
    for value in (280.0, 0.1 + 0.2, -1.5e-7, 12, True, False):
        assert tomllib.loads(f"x = {toml_value(value)}")["x"] == float(f"{value:.12g}")
