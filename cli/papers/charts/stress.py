"""Pictures of the stress analysis (SVG): the section, and the ring's bore unrolled."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.loads.wheel_load import flange_push_n, side_force_n, wheel_load_n
from platewheel.parts.rating.static_limit import regular_points
from platewheel.parts.setting.setting import Setting
from platewheel.parts.stress.response import Response
from platewheel.parts.stress.turn import angles, stress_fields, von_mises
from platewheel.parts.wheel.tread_ring import TREAD

if TYPE_CHECKING:
    from numpy.typing import NDArray

STEPS = 10  # shades, light to dark, readable in grey
LIGHT, DARK = (250, 246, 236), (92, 16, 20)


def _shade(share: float) -> str:
    """Colour of a share of the allowed stress; at 1 and beyond the darkest."""
    step = min(int(share * STEPS), STEPS - 1) / (STEPS - 1)
    return "#" + "".join(
        f"{round(a + (b - a) * step):02x}" for a, b in zip(LIGHT, DARK, strict=True)
    )


def _top(response: Response, field: NDArray[np.float64]) -> float:
    """Top of the scale: the largest stress away from sharp corners; field is over points last."""
    return float((field * regular_points(response)).max())


def _shares(response: Response, setting: Setting) -> tuple[float, float, NDArray[np.bool_]]:
    """Side force and push over the design load, and which points are the flange's: it feels the
    push, all else what of it the wheel hands on."""
    design = wheel_load_n(setting)
    flange = np.array([part == "flange" for part in response.part_of])
    return side_force_n(setting) / design, flange_push_n(setting) / design, flange


def stress_picture(response: Response, setting: Setting) -> str:
    """Section with the largest von Mises stress over all cases and angles at the design load.

    Sharp corners at weld toes and roots, and the contact itself, are shown but not rated so.
    """
    worst = np.zeros(len(response.part_of))
    side, push, flange = _shares(response, setting)
    for across, of in ((side, ~flange), (push, flange)):
        rows = np.nonzero(of)[0]
        for _, stress in stress_fields(response, across, rows.tolist()):
            worst[rows] = np.maximum(worst[rows], von_mises(stress).max(axis=0))
    worst *= wheel_load_n(setting)
    top_stress = _top(response, worst)
    share = worst / top_stress
    points, mesh = response.mesh.points, response.mesh
    pairs = zip(response.part_of, response.node_of.tolist(), strict=True)
    number = {pair: i for i, pair in enumerate(pairs)}
    shapes = []
    for part, triangle in zip(mesh.part_of, mesh.triangles, strict=True):
        mean = float(np.mean([share[number[part, int(node)]] for node in triangle]))
        corners = " ".join(f"{points[n, 1]:.2f},{-points[n, 0]:.2f}" for n in triangle)
        colour = _shade(mean)
        shapes.append(
            f'<polygon points="{corners}" fill="{colour}" stroke="{colour}" stroke-width=".15"/>'
        )
    z0, z1 = points[:, 1].min() - 6, points[:, 1].max() + 46
    top, low = points[:, 0].max() + 6, points[:, 0].min() - 8
    for part in sorted(set(mesh.part_of)):
        shapes.append(_outline(response, part))
    legend = _legend(z1 - 36, -top + 12, 4.0, 6.0, top_stress, 5.0)
    return _svg("stress of the section", (z0, -top, z1 - z0, top - low), "".join(shapes) + legend)


def _outline(response: Response, part: str) -> str:
    """Edges that belong to one triangle of the part alone."""
    mesh = response.mesh
    rows = [i for i, name in enumerate(mesh.part_of) if name == part]
    edges = np.sort(mesh.triangles[rows][:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    single, count = np.unique(edges, axis=0, return_counts=True)
    lines = "".join(
        f"M{mesh.points[a, 1]:.2f} {-mesh.points[a, 0]:.2f}"
        f"L{mesh.points[b, 1]:.2f} {-mesh.points[b, 0]:.2f}"
        for a, b in single[count == 1]
    )
    return f'<path d="{lines}" stroke="#555" stroke-width=".3" fill="none"/>'


def ring_picture(response: Response, setting: Setting) -> str:
    """Bore side of the tread ring unrolled over a quarter turn, across its width: von Mises stress
    at the design load, patch at its gauge-most place with the push on the flange."""
    side, _, _ = _shares(response, setting)
    *_, (_, stress) = stress_fields(response, side)
    field = von_mises(stress) * wheel_load_n(setting)
    top_stress = _top(response, field)
    field /= top_stress
    points, wheel = response.points, response.spec
    bore = np.array(
        [
            part == TREAD.name and r < wheel.bore_radius_mm(z) + 1e-3
            for part, (r, z) in zip(response.part_of, points, strict=True)
        ]
    )
    rows = np.nonzero(bore)[0]
    rows = rows[np.argsort(points[rows, 1])]
    across = _borders(points[rows, 1])
    turns = angles(response)
    turns = turns[turns <= np.pi / 2]
    along = _borders(turns) * wheel.tread_radius_mm
    cells = []
    for i in range(len(turns)):
        for j, row in enumerate(rows):
            colour = _shade(float(field[i, row]))
            wide, high = along[i + 1] - along[i], across[j + 1] - across[j]
            cells.append(
                f'<rect x="{along[i]:.2f}" y="{across[j]:.2f}" width="{wide:.2f}" '
                f'height="{high:.2f}" fill="{colour}" stroke="{colour}" stroke-width=".2"/>'
            )
    length, width = along[-1], across[-1]
    size = length / 55
    below = width + 1.6 * size
    words = "".join(
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{text}</text>'
        for x, y, anchor, text in (
            (0.0, -0.6 * size, "start", "field edge"),
            (0.0, below, "start", "gauge edge"),
            (0.0, below + 1.4 * size, "start", "left: under the rail"),
            (length, below + 1.4 * size, "end", "right: a quarter turn on"),
        )
    )
    legend = _legend(0.0, width + 4.0 * size, size * 3, size, top_stress, size, flat=True)
    box = (-size, -2 * size, length + 2 * size, width + 9.5 * size)
    body = f'<g font-size="{size:.1f}">{words}</g>' + "".join(cells) + legend
    return _svg("stress of the ring's bore, unrolled", box, body)


def _borders(places: NDArray[np.float64]) -> NDArray[np.float64]:
    """Borders of cells whose middles are the places; the first and last at the ends."""
    middle = (places[1:] + places[:-1]) / 2
    return np.concatenate([[places[0]], middle, [places[-1]]])


def _legend(
    x: float, y: float, wide: float, high: float, top: float, size: float, *, flat: bool = False
) -> str:
    parts = []
    for step in range(STEPS):
        share = step / STEPS
        dx, dy = (step * wide, 0.0) if flat else (0.0, step * high)
        parts.append(
            f'<rect x="{x + dx:.1f}" y="{y + dy:.1f}" width="{wide:.1f}" height="{high:.1f}" '
            f'fill="{_shade(share)}" stroke="#777" stroke-width=".1"/>'
        )
    ends = [(0, "0"), (STEPS, f"{top:.0f}")]
    for step, text in ends:
        px = x + step * wide if flat else x + wide + size / 4
        py = y + high + size if flat else y + step * high + size / 3
        anchor = ("start" if step == 0 else "end") if flat else "start"
        unit = " N/mm2" if step else ""
        parts.append(
            f'<text x="{px:.1f}" y="{py:.1f}" font-size="{size:.1f}" text-anchor="{anchor}">'
            f"{text}{unit}</text>"
        )
    return "".join(parts)


def _svg(title: str, box: tuple[float, float, float, float], body: str) -> str:
    frame = " ".join(f"{v:.1f}" for v in box)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{title}" '
        f'viewBox="{frame}" font-family="sans-serif" fill="#222"><title>{title}</title>{body}</svg>'
    )
