"""How the refit sheet looks: its style, and its tables."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

STYLE = """
body{font:15px/1.4 sans-serif;color:#111;max-width:64rem;margin:1.5rem auto;padding:0 1rem}
h1{font-size:1.6em;margin:0}h2{font-size:1.15em;margin:1.6em 0 .4em;border-bottom:2px solid}
p{margin:.4em 0}ul{margin:.4em 0;padding-left:1.2em}
table{border-collapse:collapse;width:100%;font-size:.92em}
th,td{border-bottom:1px solid #999;padding:.25em .6em;text-align:left;vertical-align:top}
td:first-child,.k{white-space:nowrap}
th{vertical-align:bottom;border-bottom:2px solid #111}
.n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}
tr.first td{border-top:2px solid #111}td.tick::before{content:"";display:inline-block;
  width:.9em;height:.9em;border:1.5px solid #111}
.wide{overflow-x:auto}tr,figure,.note{break-inside:avoid}thead{display:table-header-group}
.note{border:2px solid #111;padding:.2em .8em}
figure{margin:.8rem 0}figure svg{width:100%;height:auto;max-height:34rem}
figcaption{font-size:.9em}
@page{margin:12mm}
@media print{body{font-size:12px;margin:0;padding:0;max-width:none}h2{break-after:avoid}
  .wide{overflow:visible}figure svg{max-height:20cm}}
"""
Column = tuple[str, str]  # head, class of its cells: "" text, "k" name, "n" number, "tick" box


def table(columns: Sequence[Column], rows: Sequence[tuple[str, Sequence[str]]]) -> str:
    """HTML table; each row with its class."""
    kinds = [f" class={kind}" if kind else "" for _, kind in columns]
    heads = "".join(
        f"<th{kind}>{escape(head)}</th>" for (head, _), kind in zip(columns, kinds, strict=True)
    )
    body = "".join(
        f"<tr{f' class={look}' if look else ''}>"
        + "".join(f"<td{k}>{escape(cell)}</td>" for cell, k in zip(cells, kinds, strict=True))
        + "</tr>"
        for look, cells in rows
    )
    return (
        f"<div class=wide><table><thead><tr>{heads}</tr></thead><tbody>{body}</tbody></table></div>"
    )
