"""Where wheel and rail touch: the flat of the rail head under the tread, and its crown. mm."""

from __future__ import annotations

from platewheel.parts.setting.setting import Setting


def contact_length_mm(setting: Setting) -> float:
    """Flat of the rail head: its width less both rounded corners, at most the tread; may be 0."""
    track = setting.track
    flat = track.rail_head_width_mm - 2 * track.rail_corner_radius_mm
    return min(flat, setting.wheel.tread_width_mm)


def crown_radius_mm(setting: Setting) -> float:
    """Crown of the rail head; a head without flat is as round as its corners; 0 = flat."""
    track = setting.track
    if track.rail_head_radius_mm:
        return track.rail_head_radius_mm
    return track.rail_corner_radius_mm if contact_length_mm(setting) <= 0 else 0.0
