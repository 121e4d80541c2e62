"""What the Typst templates read: tables, words and pictures as plain data in the paper's units."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from platewheel.cli.words.on_paper import lines_on_paper
from platewheel.cli.words.table import Table
from platewheel.parts.base.units import Units

Shown = Mapping[str, object]
TITLE = re.compile(r"<title>(.*?)</title>", re.DOTALL)


def table_data(table: Table, units: Units) -> Shown:
    """Columns with head and align, rows with look and cells; `wide`: a hand writes there."""
    return {
        "columns": [
            {"head": column.head, "align": column.align, "wide": by_hand}
            for column, by_hand in zip(table.columns, table.unwritten(), strict=True)
        ],
        "rows": [
            {"look": look, "cells": [text for _, text in cells]}
            for look, cells in lines_on_paper(table, units)
        ],
    }


@dataclass
class Pictures:
    """SVG elements by the names that the template asks for."""

    files: dict[str, str] = field(default_factory=dict)

    def named(self, name: str, svg: str, words: str) -> Shown:
        """A picture as a template reads it: its file, and its words for who cannot see it."""
        self.files[f"{name}.svg"] = svg
        return {"file": f"{name}.svg", "alt": words}

    def add(self, others: Iterable[tuple[str, str]]) -> None:
        """Pictures with names of their own."""
        self.files.update(others)
