"""One part moved to where it overlaps least: at random, near by, downhill. mm, radians.

Numbers are our own: same seed, same end.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from platewheel.nesting.search.compiled import leaf
from platewheel.nesting.search.depth import pair_depth, plate_depth
from platewheel.nesting.search.distance import Floats, Ints, extent

TAU = 2 * np.pi


class State(NamedTuple):
    """Where each part lies, what each pair weighs; changed in place."""

    shape: Ints  # (parts,)
    pose: Floats  # (parts, 3): x, y, turn
    box: Floats  # (parts, 4): least x, y, greatest x, y
    weight: Floats  # (parts, parts): the diagonal is the plate's edge
    best: Floats  # (parts, 3): poses of least overlap since the last swap
    elite: Floats  # (parts, 3): the same of all swaps
    tally: Floats  # (5,): the elite's overlap, least overlap, sweeps since it fell, sweeps, moves
    random: NDArray[np.uint64]  # (1,)


@leaf
def draw(random):
    """Next number from 0 to 1. Source: xorshift64*, Vigna 2016 (from memory)."""
    x = random[0]
    x ^= x >> np.uint64(12)
    x ^= x << np.uint64(25)
    x ^= x >> np.uint64(27)
    random[0] = x
    return float((x * np.uint64(2685821657736338717)) >> np.uint64(11)) / 9007199254740992.0


@leaf
def into_room(w, s, x, y, c, sn):
    """Whether the shape goes in at this turn; the place moved into the room; its box there."""
    x0, y0, x1, y1 = extent(w, s, c, sn)
    low_x, high_x = w.room[0] - x0, w.room[2] - x1
    low_y, high_y = w.room[1] - y0, w.room[3] - y1
    if low_x > high_x + 1e-9 or low_y > high_y + 1e-9:
        return False, x, y, (x0, y0, x1, y1)
    x, y = max(low_x, min(x, high_x)), max(low_y, min(y, high_y))
    return True, x, y, (x0 + x, y0 + y, x1 + x, y1 + y)


@leaf
def cost(w, state, i, x, y, c, sn, box, limit):
    """Weighted overlap of part i if it lay there, within that box; given up above the limit."""
    s = state.shape[i]
    total = 0.0
    if w.plate_edges.shape[0]:
        total += state.weight[i, i] * plate_depth(w, s, x, y, c, sn)
    x0, y0, x1, y1 = box[0] - w.spacing, box[1] - w.spacing, box[2] + w.spacing, box[3] + w.spacing
    for j in range(state.shape.shape[0]):
        if total >= limit:
            return total
        if j == i or state.box[j, 0] >= x1 or state.box[j, 2] <= x0:
            continue
        if state.box[j, 1] >= y1 or state.box[j, 3] <= y0:
            continue
        xj, yj, tj = state.pose[j, 0], state.pose[j, 1], state.pose[j, 2]
        _, f = pair_depth(w, s, x, y, c, sn, state.shape[j], xj, yj, np.cos(tj), np.sin(tj))
        total += state.weight[i, j] * f
    return total


@leaf
def set_box(w, state, i):
    """The box of part i made that of its pose."""
    x, y, turn = state.pose[i, 0], state.pose[i, 1], state.pose[i, 2]
    x0, y0, x1, y1 = extent(w, state.shape[i], np.cos(turn), np.sin(turn))
    state.box[i, 0], state.box[i, 1] = x + x0, y + y0
    state.box[i, 2], state.box[i, 3] = x + x1, y + y1


@leaf
def a_turn(w, s, random):
    """A turn at random of those that a shape may have, radians."""
    count = w.turn_count[s]
    if count == 0:
        return TAU * draw(random)
    return w.turns[s, min(count - 1, int(draw(random) * count))]


@leaf
def _downhill(w, state, i, x, y, turn, now, first, least):
    """Coordinate descent with steps that grow on success and shrink on failure."""
    s = state.shape[i]
    step, twist = first, first / max(w.round[s, 2], 1.0)
    free = w.turn_count[s] == 0
    while step > least and now > 0.0:
        kind = int(draw(state.random) * (4.0 if free else 3.0))
        sign = 1.0 if draw(state.random) < 0.5 else -1.0
        better = False
        for _ in range(2):
            nx, ny, nt = x, y, turn
            if kind == 0:
                nx += sign * step
            elif kind == 1:
                ny += sign * step
            elif kind == 2:
                angle = TAU * draw(state.random)
                nx += step * np.cos(angle)
                ny += step * np.sin(angle)
            else:
                nt += sign * twist
            c, sn = np.cos(nt), np.sin(nt)
            fits, nx, ny, box = into_room(w, s, nx, ny, c, sn)
            if fits:
                got = cost(w, state, i, nx, ny, c, sn, box, now)
                if got < now:
                    x, y, turn, now, better = nx, ny, nt, got, True
                    break
            sign = -sign
        factor = 1.1 if better else 0.6
        if kind == 3:
            twist *= factor
            if not better:
                step *= 0.9
        else:
            step *= factor
            if not better:
                twist = max(twist * 0.9, 1e-6)
    return x, y, turn, now


@leaf
def move(w, state, i, wide, near):
    """Part i to the best place that random tries and descent find, if it is better."""
    s = state.shape[i]
    x, y, turn = state.pose[i, 0], state.pose[i, 1], state.pose[i, 2]
    now = cost(w, state, i, x, y, np.cos(turn), np.sin(turn), state.box[i], 1e300)
    if now <= 0.0:
        return
    px, py, pt, least = 0.0, 0.0, 0.0, 1e300
    room = w.room
    reach = w.round[s, 2]
    for k in range(wide + near):
        if k < wide:
            nx = room[0] + draw(state.random) * (room[2] - room[0])
            ny = room[1] + draw(state.random) * (room[3] - room[1])
            nt = a_turn(w, s, state.random)
            nx -= np.cos(nt) * w.round[s, 0] - np.sin(nt) * w.round[s, 1]
            ny -= np.sin(nt) * w.round[s, 0] + np.cos(nt) * w.round[s, 1]
        else:
            nx = x + (draw(state.random) - 0.5) * 2.0 * reach
            ny = y + (draw(state.random) - 0.5) * 2.0 * reach
            nt = turn
            if w.turn_count[s] == 0:
                nt = TAU * draw(state.random)
            elif draw(state.random) < 0.5:
                nt = a_turn(w, s, state.random)
        c, sn = np.cos(nt), np.sin(nt)
        fits, nx, ny, box = into_room(w, s, nx, ny, c, sn)
        if not fits:
            continue
        got = cost(w, state, i, nx, ny, c, sn, box, least)
        if got < least:
            px, py, pt, least = nx, ny, nt, got
    bx, by, bt, best = _downhill(w, state, i, x, y, turn, now, 0.05 * reach, 1.0)
    if least < 1e300:
        px, py, pt, least = _downhill(w, state, i, px, py, pt, least, 0.25 * reach, 2.0)
        if least < best:
            bx, by, bt, best = px, py, pt, least
    if best < now:
        bx, by, bt, best = _downhill(w, state, i, bx, by, bt, best, 1.0, 1e-2)
        state.pose[i, 0], state.pose[i, 1], state.pose[i, 2] = bx, by, bt
        set_box(w, state, i)
