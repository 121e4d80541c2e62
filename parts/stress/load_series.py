"""From unit amplitudes of the harmonics solved to load cases: a spline over the harmonic number,
then each load's own Fourier series."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from platewheel.parts.stress.loads import raised_cosine, upward

if TYPE_CHECKING:
    from numpy.typing import NDArray

PLACES = 7  # of the patch across the tread


@dataclass(frozen=True)
class LoadSeries:
    """Loads in the order of solving: radial at each of PLACES, tangential at each, the push.
    `solved` names the harmonics solved, of `count`; angles are half lengths of the loads, rad."""

    solved: NDArray[np.int64]
    count: int
    patch_angle: float
    push_angle: float

    @cached_property
    def spline(self) -> NDArray[np.float64]:
        """(count, solved): values of a cubic spline at every harmonic, from those solved; a
        spline is linear in what it goes through."""
        from scipy.interpolate import CubicSpline

        knots = CubicSpline(self.solved, np.eye(len(self.solved)), axis=0)
        return np.asarray(knots(np.arange(self.count)))

    @cached_property
    def patch(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Amplitudes of a vertical patch of 1 N, radial and tangential, (count,) each."""
        return upward(raised_cosine(self.patch_angle, self.count))

    @cached_property
    def push(self) -> NDArray[np.float64]:
        """Amplitudes of an axial push of 1 N, (count,)."""
        return raised_cosine(self.push_angle, self.count)[: self.count]

    def all_harmonics(self, unit: NDArray[np.float64]) -> NDArray[np.float64]:
        """(solved, ..., 2 PLACES + 1) to (count, ..., PLACES + 1)."""
        smooth = np.tensordot(self.spline, unit, axes=1)
        shape = (-1,) + (1,) * (unit.ndim - 1)
        patch = smooth[..., :PLACES] * self.patch[0].reshape(shape)
        patch += smooth[..., PLACES : 2 * PLACES] * self.patch[1].reshape(shape)
        return np.concatenate(
            [patch, smooth[..., 2 * PLACES :] * self.push.reshape(shape)], axis=-1
        )

    def drag(self, unit: NDArray[np.float64]) -> NDArray[np.float64]:
        """(solved, places) along the rim for the tangential loads to (count, places) for a patch
        of 1 N along it, at angle 0. What runs as sine for loads that run as sine runs as cosine
        for the same loads as cosine: the wheel turned by a quarter wave; harmonic 0 is torsion."""
        series = raised_cosine(self.patch_angle, self.count)[: self.count]
        return np.asarray((self.spline @ unit) * series[:, None])

    def weights(
        self, turns: NDArray[np.float64]
    ) -> tuple[tuple[NDArray[np.float64], NDArray[np.float64]], ...]:
        """What turns amplitudes solved into values at angles, (angles, solved) each: of cosine
        and of sine components, for the radial, the tangential and the push loads."""
        around = np.outer(turns, np.arange(self.count))
        cosine, sine = np.cos(around), np.sin(around)
        series = (*self.patch, self.push)
        return tuple(((cosine * s) @ self.spline, (sine * s) @ self.spline) for s in series)
