"""Where the texts of a drawing lie: boxes on paper, turned as they are drawn."""

from __future__ import annotations

import re
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
WIDE, HIGH = 0.5, 0.72  # of a digit, over the size of the letters: common in sans-serif faces
START = {"start": 0.0, "middle": 0.5, "end": 1.0}


def text_boxes(svg: str) -> list[tuple[str, Any]]:
    """Each text with its box, a shapely polygon."""
    found: list[tuple[str, Any]] = []

    def walk(node: ElementTree.Element, move: tuple[float, float, float]) -> None:
        from shapely import affinity, box

        turned = re.fullmatch(
            r"translate\((\S+) (\S+)\) rotate\((\S+)\)", node.get("transform", "")
        )
        if turned:
            assert move == (0.0, 0.0, 0.0)  # groups are turned once
            move = tuple(map(float, turned.groups()))  # type: ignore[assignment]
        if node.tag == f"{SVG}text" and node.text:
            size, x, y = (float(node.get(key, "0")) for key in ("font-size", "x", "y"))
            wide = WIDE * size * len(node.text)
            left = x - START[node.get("text-anchor", "start")] * wide
            shape = box(left, y - HIGH * size, left + wide, y)
            shape = affinity.rotate(shape, move[2], origin=(0, 0))
            found.append((node.text, affinity.translate(shape, *move[:2])))
        for child in node:
            walk(child, move)

    walk(ElementTree.fromstring(svg), (0.0, 0.0, 0.0))
    return found


def overlaps(svg: str) -> list[tuple[str, str]]:
    """Pairs of texts that lie on each other."""
    return [
        (a[0], b[0])
        for a, b in combinations(text_boxes(svg), 2)
        if a[1].intersection(b[1]).area > 0
    ]


def outside(svg: str) -> list[str]:
    """Texts that reach out of the picture."""
    from shapely import box

    view = ElementTree.fromstring(svg).get("viewBox", "")
    left, top, wide, high = map(float, view.split())
    picture = box(left, top, left + wide, top + high)
    return [text for text, shape in text_boxes(svg) if not picture.contains(shape)]
