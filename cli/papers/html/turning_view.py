"""A 3-D view of the wheel that turns under the finger, for a page without network."""

from __future__ import annotations

import json
from collections.abc import Mapping
from importlib.resources import files

VIEW_STYLE = """
.turning canvas{width:100%;height:26rem;touch-action:pan-y;cursor:grab;border:1px solid #b9c0c4}
.turning label{display:inline-block;margin-right:1.2rem}
.turning input[type=range]{vertical-align:middle;width:9rem}
@media print{.turning{display:none}}
"""


def turning_view(scene: Mapping[str, object]) -> str:
    """HTML figure with its own data and script; hidden in print, and where no script runs.

    `scene` is that of `turning_scene`.
    """
    text = json.dumps(scene, separators=(",", ":"))
    script = (files("platewheel.cli.papers.html") / "turning_view.js").read_text(encoding="utf-8")
    return (
        '<figure class="turning" id="turning" hidden><canvas tabindex="0" role="img" '
        'aria-label="the wheel in three dimensions; drag it, or use the arrow keys"></canvas>'
        "<figcaption>Drag to turn, or arrow keys. "
        '<label>Pull apart <input name="pull" type="range" min="0" max="1" step="0.01" '
        'value="0"></label>'
        '<label>Nearer <input name="near" type="range" min="0.7" max="4" step="0.05" '
        'value="1"></label>'
        '<label><input name="beads" type="checkbox" checked> beads</label>'
        '<button type="button">as at first</button></figcaption></figure>'
        f'<script type="application/json" id="turning-mesh">{text}</script>'
        f"<script>{script}</script>"
    )
