"""Path of the current: the lamp on its two wires, the person, earth, and the way of the current drawn thick."""

from __future__ import annotations

import itertools

from ...circuit.parts import value_of
from ...results.style import INK, LOOKS, PAPER, Look
from ..kit.overlay import Overlay, Span
from .view import Contact

SPANS = (Span(0, 110), Span(0, 10))
_WIRE, _BOX = Look("wire", "", INK, width=14), Look("part", "", PAPER)
_WAY = LOOKS["warm"].solid(44)
_UPPER, _LOWER, _EARTH = 8.2, 4.4, 0.6  # heights of the wires, and of earth
_LEFT, _DOWN, _NODE, _BRIDGE, _BUS, _RAIL, _END = 11, 5, 40, 47, 57, 90, 102  # places across


def draw(layer: Overlay, axes: int, contact: Contact) -> None:
    """Draw the circuit with the person in it.

    Parameters
    ----------
    layer
        What it is drawn on; its axes cover `SPANS`.
    """
    neutral, person = _neutral(contact), _person(contact)
    wires = [
        [(_LEFT, _UPPER), (_BRIDGE, _UPPER)],
        [(_LEFT, _LOWER), (_BRIDGE, _LOWER)],
        [(_BUS, _UPPER), (_RAIL, _UPPER)],
        [(_BUS, _LOWER), (_RAIL, _LOWER)],
        [(66, _UPPER), (66, _LOWER)],
        [(77, _UPPER), (77, _LOWER)],
        [(_LEFT, neutral), (_DOWN, neutral), (_DOWN, _EARTH)],
        person,
    ]
    for wire in wires:
        _line(layer, axes, wire, _WIRE)
    layer.line(axes, (_DOWN - 4, _EARTH), (_END + 4, _EARTH), _WIRE)
    points = way(contact)
    _line(layer, axes, points, _WAY)
    _parts(layer, axes, contact)
    low, high = person[-1][1], _UPPER if contact.hand == "string" else _LOWER
    _box(layer, axes, person[-1][0], (low + high) / 2, 12, 1.9, "person", _WAY.colour)
    layer.arrow(axes, points[0], (points[0][0] + 4, points[0][1]), _WAY)
    for height in (_UPPER, _LOWER):
        words = "neutral" if height == neutral else "live"
        layer.words(axes, _LEFT, height, words, "middle", INK, words == "live", 110, (0, -60))
    layer.words(axes, 26, _EARTH, "earth", "middle", INK, False, 110, (0, -50))
    layer.words(axes, _RAIL - 8, _UPPER, "+", "middle", INK, True, 130, (0, -50))
    layer.words(axes, _RAIL - 8, _LOWER, "−", "middle", INK, True, 130, (0, 130))


def _person(contact):
    """From the hand to the other end; the last stretch holds the person."""
    return {
        "minus": [(_RAIL, _LOWER), (_RAIL, _EARTH)],
        "plus": [(_RAIL, _UPPER), (_END, _UPPER), (_END, _EARTH)],
        "bridge": [(_NODE, _UPPER), (_NODE, _EARTH)],
        "string": [(_RAIL, _UPPER), (_RAIL, _LOWER)],
    }[contact.hand]


def _neutral(contact):
    """The height of the neutral wire."""
    return _LOWER if contact.live == "dropper" else _UPPER


def way(contact: Contact) -> list[tuple[float, float]]:
    """The way of the current from live to neutral, as points on `SPANS`."""
    person, neutral = _person(contact), _neutral(contact)
    straight = contact.live == "dropper"
    start = [(_LEFT, _UPPER), (_BRIDGE, _UPPER)] if straight else [(_LEFT, _LOWER), (_BRIDGE, _LOWER)]
    home = [(_DOWN, _EARTH), (_DOWN, neutral), (_LEFT, neutral)]
    if contact.hand == "string":
        back = [(_BUS, _LOWER), (_BRIDGE, neutral), (_LEFT, neutral)]
        return [*start, (_BUS, _UPPER), *person, *back]
    if contact.hand == "bridge":
        through = [] if straight else [(_BUS, _LOWER), (66, _LOWER), (66, _UPPER), (_BUS, _UPPER), (_BRIDGE, _UPPER)]
        return [*(start[:1] if straight else start), *through, *person, *home]
    return [*start, (_BUS, person[0][1]), *person, *home]


def _parts(layer, axes, contact):
    lamp = contact.lamp
    if lamp.inrush_resistor and not contact.state.endswith("no R1"):
        _box(layer, axes, 20, _UPPER, 9, 1.9, "R1")
    _box(layer, axes, 33, _UPPER, 9, 1.9, "C1")
    layer.words(
        axes, 33, _UPPER, "short" if contact.short else value_of(lamp, "dropper"), "middle", INK, False, 100, (0, 260)
    )
    _box(layer, axes, (_BRIDGE + _BUS) / 2, (_UPPER + _LOWER) / 2, _BUS - _BRIDGE, 6, "bridge")
    if lamp.smoothing:
        _box(layer, axes, 66, (_UPPER + _LOWER) / 2, 8, 1.9, "C2")
    _box(layer, axes, 77, (_UPPER + _LOWER) / 2, 9, 1.9, "LEDs")


def _box(layer, axes, x, y, wide, high, words, colour=INK):
    layer.bar(axes, (x - wide / 2, y - high / 2), (x + wide / 2, y + high / 2), _BOX)
    layer.words(axes, x, y, words, "middle", colour, True, 110, (0, 40))


def _line(layer, axes, points, look):
    for start, end in itertools.pairwise(points):
        layer.line(axes, start, end, look)
