"""A cutting file made by hand, number by number, that holds what the proof asks for.

A plate of 400 x 300 mm with a disc in the hole of a ring, a square with a slot, and the right
quarter of it to keep. Nothing of `nesting.cutting` is used.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import ezdxf

from platewheel.nesting.proof.asked import Asked, AskedPart, Kept, Told
from platewheel.parts.geometry.outline import Circle, polygon

KERF, LEAD, TAB = 1.5, 5.0, 1.5
QUARTER = math.tan(math.pi / 8)  # bulge of a quarter turn
PLATE = ((0.0, 0.0), (400.0, 0.0), (400.0, 300.0), (0.0, 300.0))
KEPT = ((300.0, 0.0), (400.0, 0.0), (400.0, 300.0), (300.0, 300.0))
SQUARE = polygon([(190.0, 40.0), (270.0, 40.0), (270.0, 120.0), (190.0, 120.0)])
SLOT = polygon([(215.0, 70.0), (245.0, 70.0), (245.0, 90.0), (215.0, 90.0)])
PARTS = (
    AskedPart(1, "disc", Circle((100.0, 100.0), 15.0)),
    AskedPart(2, "ring", Circle((100.0, 100.0), 60.0), (Circle((100.0, 100.0), 35.0),)),
    AskedPart(3, "square", SQUARE, (SLOT,)),
)


@dataclass(frozen=True)
class E:
    """One entity to draw; `at` are corners x, y, bulge, or the numbers of its kind."""

    kind: str
    layer: str
    at: tuple[Any, ...]
    closed: bool = False
    name: str = ""


def line(layer: str, a: tuple[float, float], b: tuple[float, float], name: str = "") -> E:
    return E("line", layer, (a, b), name=name)


def path(layer: str, corners: list[Any], name: str, *, closed: bool = True) -> E:
    return E("path", layer, tuple((*c, 0.0)[:3] for c in corners), closed, name)


def circle(layer: str, x: float, radius: float, turn: float, name: str) -> E:
    """About (100, 100) from x on; the turn is 1 counter-clockwise, -1 clockwise."""
    far = 200.0 - x
    assert abs(x - 100.0) == radius
    return path(layer, [(x, 100.0, turn), (far, 100.0, turn)], name)


def good(*, in_path: bool = False, tabs: bool = False, leads: bool = True) -> list[E]:
    """The entities in their order."""
    h = KERF / 2 if in_path else 0.0

    def lead(a: tuple[float, float], b: tuple[float, float], name: str) -> list[E]:
        return [line("lead", a, b, name)] if leads else []

    found = [
        path("sheet-edge", list(PLATE), "edge"),
        E("point", "mark", (100.0, 100.0), name="centre"),
        path("mark", [(200.0, 50.0), (205.0, 60.0)], "letter", closed=False),
        line("mark", (200.0, 80.0), (260.0, 80.0), "bend"),
        path("mark", [(320.0, 100.0), (330.0, 110.0)], "kept letter", closed=False),
        *lead((115 + h + LEAD, 100.0), (115 + h, 100.0), "lead 1"),
        circle("cut-outline", 115 + h, 15 + h, -1.0, "disc"),
        *lead((65 + h + LEAD, 100.0), (65 + h, 100.0), "lead 2h"),
        circle("cut-hole", 65 + h, 35 - h, 1.0, "ring hole"),
        *lead((40 - h - LEAD, 100.0), (40 - h, 100.0), "lead 2"),
        circle("cut-outline", 40 - h, 60 + h, -1.0, "ring"),
        *lead((230.0, 70 + h + LEAD), (230.0, 70 + h), "lead 3h"),
        path(
            "cut-hole",
            [
                (230, 70 + h),
                (245 - h, 70 + h),
                (245 - h, 90 - h),
                (215 + h, 90 - h),
                (215 + h, 70 + h),
            ],
            "slot",
        ),
        *lead((190 - h - LEAD, 80.0), (190 - h, 80.0), "lead 3"),
    ]
    if tabs:
        g = (KERF + TAB) / 2
        found += [
            path("cut-outline", [*left_up(h), (230 - g, 120 + h)], "run 1", closed=False),
            *lead((230 + g, 120 + h + LEAD), (230 + g, 120 + h), "lead 3b"),
            path(
                "cut-outline",
                [(230 + g, 120 + h), *right(h), (230 + g, 40 - h)],
                "run 2",
                closed=False,
            ),
            *lead((230 - g, 40 - h - LEAD), (230 - g, 40 - h), "lead 3c"),
            path(
                "cut-outline",
                [(230 - g, 40 - h), *left_down(h), (190 - h, 80.0)],
                "run 3",
                closed=False,
            ),
        ]
    else:
        found.append(path("cut-outline", [*left_up(h), *right(h), *left_down(h)], "square"))
    found += [
        line("offcut", (299.25, 0.0), (299.25, 300.0), "parting"),
        line("skeleton", (100.0, 170.0), (100.0, 300.0), "grid"),
        E("text", "text", (0.0, -30.0), name="note"),
    ]
    return found


def left_up(h: float) -> list[Any]:
    """Clockwise round the square from the middle of its left side; corners rounded by h."""
    if h == 0:
        return [(190, 80), (190, 120)]
    return [(190 - h, 80), (190 - h, 120, -QUARTER), (190, 120 + h)]


def right(h: float) -> list[Any]:
    if h == 0:
        return [(270, 120), (270, 40)]
    return [(270, 120 + h, -QUARTER), (270 + h, 120), (270 + h, 40, -QUARTER), (270, 40 - h)]


def left_down(h: float) -> list[Any]:
    if h == 0:
        return [(190, 40)]
    return [(190, 40 - h, -QUARTER), (190 - h, 40)]


def asked(*, in_path: bool = False, tabs: bool = False, leads: bool = True) -> Asked:
    """What the file is proved against; its length of cut by closed forms."""
    h = KERF / 2 if in_path else 0.0
    rounds = 2 * math.pi * ((15 + h) + (35 - h) + (60 + h))
    square = 320 + 2 * math.pi * h - (2 * (KERF + TAB) if tabs else 0.0)
    slot = 2 * (30 - 2 * h) + 2 * (20 - 2 * h)
    runs = 5 + (2 if tabs else 0)
    length = rounds + square + slot + 300 + 130 + (LEAD * runs if leads else 0.0)
    return Asked(
        plate=PLATE,
        parts=PARTS,
        pierces=runs + 2,
        cut_length_mm=length,
        kerf_mm=KERF,
        kerf_in_path=in_path,
        lead_in_mm=LEAD if leads else 0.0,
        pierce_clear_mm=4.0,
        tab_count=2 if tabs else 0,
        tab_width_mm=TAB,
        kept=(Kept(KEPT),),
        told=Told(fewer_tabs=frozenset({1, 2}) if tabs else frozenset()),
    )


def write(entities: list[E], file: Path, version: str = "R2000") -> Path:
    """The entities as a file of either version."""
    if version == "R12":
        drawing = ezdxf.document.Drawing.new("AC1009")
    else:
        drawing = ezdxf.new(version, units=4)
    space = drawing.modelspace()
    for e in entities:
        about = {"layer": e.layer}
        if e.kind == "line":
            space.add_line(*e.at, dxfattribs=about)
        elif e.kind == "point":
            space.add_point(e.at, dxfattribs=about)
        elif e.kind == "text":
            space.add_text(e.name, dxfattribs=about).set_placement(e.at)
        elif e.kind == "arc":
            space.add_arc(*e.at, dxfattribs=about)
        elif e.kind == "circle":
            space.add_circle(*e.at, dxfattribs=about)
        elif version == "R12":
            space.add_polyline2d(e.at, format="xyb", close=e.closed, dxfattribs=about)
        else:
            space.add_lwpolyline(e.at, format="xyb", close=e.closed, dxfattribs=about)
    drawing.saveas(file)
    return file


@dataclass
class Edit:
    """Changes to a list of entities, each by the name of one."""

    entities: list[E] = field(default_factory=list)

    def place(self, name: str) -> int:
        return next(i for i, e in enumerate(self.entities) if e.name == name)

    def drop(self, *names: str) -> None:
        self.entities = [e for e in self.entities if e.name not in names]

    def put(self, name: str, **more: Any) -> None:
        i = self.place(name)
        self.entities[i] = replace(self.entities[i], **more)

    def shift(self, name: str, dx: float, dy: float) -> None:
        e = self.entities[self.place(name)]
        self.put(name, at=tuple((p[0] + dx, p[1] + dy, *p[2:]) for p in e.at))

    def before(self, name: str, *new: E) -> None:
        i = self.place(name)
        self.entities[i:i] = new

    def move_before(self, name: str, *moved: str) -> None:
        taken = [self.entities[self.place(one)] for one in moved]
        self.drop(*moved)
        self.before(name, *taken)
