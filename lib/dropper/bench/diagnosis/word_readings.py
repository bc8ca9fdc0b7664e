"""Word readings: how probable each word is for the light, the diode test and the test of the string."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from .evidence import BRIDGES, LIGHTS, STRINGS
from .simulation import DARK

if TYPE_CHECKING:
    from .cause_table import CauseTable

# To the eye a lamp remembered from before is dimmer below 0.8 and brighter above 1.25 times its current, give or
# take 15 %; flicker is noticed from some 25 points above the healthy lamp's. Typical practice, no source.
_DIMMER, _BRIGHTER, _EYE = np.log(0.80), np.log(1.25), 0.15
_FLICKERS, _FLICKER_SPREAD = 25.0, 12.0
_SLIP = 0.02  # of tests that are written down wrongly


def word_probabilities(table: CauseTable, name: str) -> np.ndarray:
    """How probable each word is at every point of a table.

    Parameters
    ----------
    name
        "light", "bridge" or "string".

    Returns
    -------
    array, shape (points, words)
        In the order of `evidence.WORDS`; rows add up to 1.
    """
    if name == "light":
        return _light(table)
    words, likeliest = (list(BRIDGES), _bridge) if name == "bridge" else (list(STRINGS), _string)
    chances = np.full((len(table.cause), len(words)), _SLIP / (len(words) - 1))
    for point, cause in enumerate(table.cause):
        chances[point, words.index(likeliest(table.causes[cause]))] = 1 - _SLIP
    return chances


def _light(table):
    from scipy.special import ndtr

    light = np.log(np.maximum(table.observables["light"], 1e-6))
    flicker = table.observables["flicker"]
    healthy = flicker[table.points_of(None)[0]]
    none = ndtr((np.log(DARK) - light) / 0.5)
    flickers = ndtr((flicker - healthy - _FLICKERS) / _FLICKER_SPREAD) * (1 - none)
    steady = 1 - none - flickers
    dim, bright = ndtr((_DIMMER - light) / _EYE), ndtr((light - _BRIGHTER) / _EYE)
    chances = np.stack([none, steady * dim, steady * (1 - dim - bright).clip(0), steady * bright, flickers], axis=1)
    chances = (1 - _SLIP) * chances + _SLIP / len(LIGHTS)
    return chances / chances.sum(axis=1, keepdims=True)


def _bridge(kind):
    if kind is None or not kind[1].startswith("D"):
        return "good"
    pairs = {"D1 and D2": "two short on a rail", "D1 and D3": "two short on a leg"}
    return pairs.get(kind[1], f"one {kind[0]}")


def _string(kind):
    return {("open", "string"): "open", ("short", "group"): "one short", ("short", "groups"): "several short"}.get(
        kind, "good"
    )
