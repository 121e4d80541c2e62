"""Parts moved until none overlaps: guided local search, the compiled half. mm, radians.

Each part that overlaps tries places at random, near where it is, and follows the best of them
downhill; pairs that stay in each other's way weigh more from sweep to sweep; a search that is
stuck swaps two unlike parts. Work is counted in sweeps, numbers are our own: same seed, same end.
"""

from __future__ import annotations

import numpy as np

from platewheel.nesting.search.compiled import kernel, leaf
from platewheel.nesting.search.depth import pair_depth, plate_depth
from platewheel.nesting.search.move import a_turn, draw, into_room, move, set_box

TOUCH = 1e-3  # mm of depth that counts as none
HEAVIEST = 1e4  # of a pair
NEARLY = 8.0  # mm of overlap in all that is worth more patience
ACCEPT = 1.1  # overlap of a new elite, times the old one's
KICKS = 2  # most swaps at once


@kernel
def overlaps(w, state, depth):
    """Fill the depths of all pairs (f) and return their sum and the parts that have any."""
    n = state.shape.shape[0]
    for i in range(n):
        set_box(w, state, i)
    total, bad = 0.0, np.zeros(n, np.int64)
    for i in range(n):
        ci, si = np.cos(state.pose[i, 2]), np.sin(state.pose[i, 2])
        depth[i, i] = plate_depth(w, state.shape[i], state.pose[i, 0], state.pose[i, 1], ci, si)
        if depth[i, i] > TOUCH:
            total += depth[i, i]
            bad[i] = 1
        for j in range(i):
            cj, sj = np.cos(state.pose[j, 2]), np.sin(state.pose[j, 2])
            _, f = pair_depth(
                w, state.shape[i], state.pose[i, 0], state.pose[i, 1], ci, si,
                state.shape[j], state.pose[j, 0], state.pose[j, 1], cj, sj,
            )  # fmt: skip
            depth[i, j] = depth[j, i] = f
            if f > TOUCH:
                total += f
                bad[i] = bad[j] = 1
    return total, bad


@leaf
def _swap(w, state, bad):
    """A part that overlaps and an unlike one change places."""
    n = state.shape.shape[0]
    for _ in range(50 * n):
        i, j = int(draw(state.random) * n), int(draw(state.random) * n)
        if bad[i] == 0:
            continue
        a, b = state.shape[i], state.shape[j]
        if a == b:
            continue
        ti, tj = state.pose[i, 2], state.pose[j, 2]
        mi = np.cos(ti) * w.round[a, 0] - np.sin(ti) * w.round[a, 1] + state.pose[i, 0]
        ni = np.sin(ti) * w.round[a, 0] + np.cos(ti) * w.round[a, 1] + state.pose[i, 1]
        mj = np.cos(tj) * w.round[b, 0] - np.sin(tj) * w.round[b, 1] + state.pose[j, 0]
        nj = np.sin(tj) * w.round[b, 0] + np.cos(tj) * w.round[b, 1] + state.pose[j, 1]
        for k, x, y in ((i, mj, nj), (j, mi, ni)):
            s = state.shape[k]
            t = a_turn(w, s, state.random)
            x -= np.cos(t) * w.round[s, 0] - np.sin(t) * w.round[s, 1]
            y -= np.sin(t) * w.round[s, 0] + np.cos(t) * w.round[s, 1]
            fits, x, y, _ = into_room(w, s, x, y, np.cos(t), np.sin(t))
            if fits:
                state.pose[k, 0], state.pose[k, 1], state.pose[k, 2] = x, y, t
        return


@leaf
def scatter(w, state):
    """All parts to random places."""
    for i in range(state.shape.shape[0]):
        state.pose[i, 0] = w.room[0] + draw(state.random) * (w.room[2] - w.room[0])
        state.pose[i, 1] = w.room[1] + draw(state.random) * (w.room[3] - w.room[1])
        state.pose[i, 2] = a_turn(w, state.shape[i], state.random)


@leaf
def all_into_room(w, state):
    """Every part moved just into the room; one that does not go in at its turn is laid anew."""
    for i in range(state.shape.shape[0]):
        s = state.shape[i]
        for _ in range(100):
            x, y, t = state.pose[i, 0], state.pose[i, 1], state.pose[i, 2]
            fits, x, y, _ = into_room(w, s, x, y, np.cos(t), np.sin(t))
            state.pose[i, 0], state.pose[i, 1] = x, y
            if fits:
                break
            state.pose[i, 2] = a_turn(w, s, state.random)


@kernel
def sweeps(w, state, count, patience, wide, near):
    """Up to `count` sweeps; True when no part overlaps. Goes on where the last call ended."""
    n = state.shape.shape[0]
    depth = np.zeros((n, n))
    total, bad = overlaps(w, state, depth)
    tally = state.tally
    for _ in range(count):
        if total == 0.0:
            state.best[:] = state.pose
            tally[1] = 0.0
            return True
        order = np.flatnonzero(bad)
        for k in range(order.shape[0] - 1, 0, -1):
            j = int(draw(state.random) * (k + 1))
            order[k], order[j] = order[j], order[k]
        for i in order:
            move(w, state, i, wide, near)
        total, bad = overlaps(w, state, depth)
        tally[3] += 1
        tally[4] += order.shape[0]
        if total < tally[1]:
            if total < 0.98 * tally[1]:
                tally[2] = 0
            tally[1] = total
            state.best[:] = state.pose
        tally[2] += 1
        peak = max(depth.max(), 1e-9)
        for i in range(n):
            for j in range(n):
                if depth[i, j] > TOUCH:
                    grown = state.weight[i, j] * (1.1 + 0.4 * depth[i, j] / peak)
                    state.weight[i, j] = min(grown, HEAVIEST)
                else:
                    state.weight[i, j] = max(1.0, 0.95 * state.weight[i, j])
        if tally[2] > (patience if tally[1] > NEARLY else 4 * patience):
            if tally[1] < ACCEPT * tally[0]:
                tally[0] = tally[1]
                state.elite[:] = state.best
            tally[1], tally[2] = 1e300, 0
            state.weight[:] = 1.0
            state.pose[:] = state.elite
            _, bad = overlaps(w, state, depth)
            for _ in range(1 + int(draw(state.random) * KICKS)):
                _swap(w, state, bad)
            total, bad = overlaps(w, state, depth)
    return False
