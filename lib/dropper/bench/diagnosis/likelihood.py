"""Likelihood: how probable a set of rounded readings is: Gaussian, integrated over the digits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from .prediction import Prediction

_PRIMES = np.array([2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71])
_LEAST = 1e-300


def lattice_points(count: int, dimensions: int) -> np.ndarray:
    """Points spread evenly over the unit cube: multiples of the roots of primes, modulo one.

    Parameters
    ----------
    count, dimensions
        At most 20 dimensions.
    """
    steps = np.sqrt(_PRIMES[:dimensions]) % 1
    return (0.5 + np.arange(1, count + 1)[:, None] * steps) % 1


def log_box_probability(
    mean: np.ndarray, covariance: np.ndarray, low: np.ndarray, high: np.ndarray, count: int = 48
) -> np.ndarray:
    """Logarithm of the probability that a Gaussian lies in a box, for many Gaussians at once.

    One coordinate is cut after the other, each given those before it (Genz 1992, J. Comput. Graph.
    Stat. 1:141, from memory), at a fixed set of points, so that the same call gives the same answer.

    Parameters
    ----------
    low, high
        Infinite where the box is open.
    count
        Points of the integration.

    Returns
    -------
    array, shape (points,)
        No less than about -700 for each coordinate.
    """
    from scipy.special import ndtr, ndtri

    points, d = mean.shape
    root = np.linalg.cholesky(covariance)
    spread = lattice_points(count, max(d - 1, 1))
    samples = np.zeros((points, count, d))
    total = np.zeros((points, count))
    for k in range(d):
        shift = mean[:, None, k] + np.einsum("pj,pcj->pc", root[:, k, :k], samples[:, :, :k])
        a, b = (low[k] - shift) / root[:, None, k, k], (high[k] - shift) / root[:, None, k, k]
        right = a > 0  # the same area in the other tail, where it does not drown in rounding
        a, b = np.where(right, -b, a), np.where(right, -a, b)
        below_low, below_high = ndtr(a), ndtr(b)
        area = np.maximum(below_high - below_low, 0.0)
        total += np.log(np.maximum(area, _LEAST))
        if k < d - 1:
            at = np.clip(below_low + spread[None, :, k] * area, _LEAST, 1 - 1e-16)
            inside = np.clip(ndtri(at), np.maximum(a, -40), np.minimum(b, 40))
            samples[:, :, k] = np.where(right, -inside, inside)
    top = total.max(axis=1, keepdims=True)
    return (top + np.log(np.mean(np.exp(total - top), axis=1, keepdims=True)))[:, 0]


def joint_gaussian(parts: Sequence[Prediction]) -> tuple[np.ndarray, ...]:
    """Means and covariances of several readings together."""
    mean = np.stack([part.mean for part in parts], axis=1)
    loadings = np.stack([part.loadings for part in parts], axis=1)
    covariance = np.einsum("pis,pjs->pij", loadings, loadings)
    for place, part in enumerate(parts):
        covariance[:, place, place] += part.independent**2
    return mean, covariance


def conditional_gaussian(
    mean: np.ndarray, covariance: np.ndarray, known: int, values: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """What is left to be expected of some coordinates of Gaussians once others are known.

    Parameters
    ----------
    known
        The first so many coordinates are known.

    Returns
    -------
    (array, array)
        Mean and covariance of the others.
    """
    if not known:
        return mean, covariance
    first, cross, rest = covariance[:, :known, :known], covariance[:, known:, :known], covariance[:, known:, known:]
    gain = np.linalg.solve(first, np.swapaxes(cross, 1, 2))
    shifted = mean[:, known:] + np.einsum("pkj,pk->pj", gain, values - mean[:, :known])
    return shifted, rest - np.einsum("pjk,pki->pji", cross, gain)
