"""What the job sheet looks like, and the cautions before the work."""

from __future__ import annotations

STYLE = """
body{font:15px/1.45 sans-serif;color:#1c2226;max-width:62rem;margin:1.5rem auto;padding:0 1rem}
h1{font-size:1.6rem;margin:0}h2{font-size:1.15rem;margin:2rem 0 .5rem;
  border-bottom:2px solid #1c2226}
table{border-collapse:collapse;width:100%;margin:.5rem 0;font-size:.9rem}
th,td{border-bottom:1px solid #b9c0c4;padding:.25rem .5rem;text-align:left;vertical-align:top}
td.n,th.n{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}
figure{margin:.8rem 0;break-inside:avoid}figure svg{width:100%;height:auto;max-height:34rem}
figure.blank{display:inline-block;width:31%;vertical-align:top;margin-right:1.5%}
figure.blank svg{max-height:15rem}figcaption{font-size:.85rem}
.caution{border:2px solid #1c2226;padding:.5rem 1rem;break-inside:avoid}
.verdict{font-weight:bold;text-transform:uppercase}
.wide{overflow-x:auto}tr{break-inside:avoid}
@media(max-width:40rem){figure.blank{width:100%}}
@media print{body{font-size:11px;margin:0;max-width:none}h2,h3{break-after:avoid}
h2.own{break-before:page}}
"""
CAUTIONS = (
    "A sealed hollow in a zinc bath explodes. Look through the vent holes of every wheel before "
    "it goes to the galvanizer, and tell them how the box is vented.",
    "Weld before galvanizing. Welding or cutting zinc-coated steel gives fume that makes ill; "
    "grind the zinc off well back from the joint, ventilate, wear a fitting respirator.",
    "Hot work: clear the ground of what burns, wear eye, ear and hand protection; grinder discs "
    "burst, cut edges are sharp.",
    "Plates, bars and finished wheels are heavy: lift with help or a hoist, never stand below.",
    "No people ride on wagons with wheels that have not been proof-loaded. Wagons need brakes "
    "or scotches wherever the track falls; they roll away on slopes that the eye does not see.",
    "These figures are an aid. Local codes, licensed welders and engineers, and the rules for "
    "railways on your land come first.",
)
