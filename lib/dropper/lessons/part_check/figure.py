"""Part-check figure: a part with its print, and what the mark allows against what a meter can vouch for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...circuit.values import show
from ...components.marks.meaning import Meaning
from ...results.style import GHOST, INK, LOOKS, on_page
from ..kit.frame import nice_scale
from ..kit.part_drawing import draw, words
from ..kit.picture import Paper

if TYPE_CHECKING:
    from .view import View

_INK, _GHOST = on_page(INK), on_page(GHOST)
PICTURE = Paper((780, 340))
backdrop = PICTURE.backdrop
_LEFT, _RIGHT = 330, 740  # of the axis
_SHAPES = {
    "resistor": "resistor",
    "chip resistor": "chip",
    "chip link": "chip",
    "link": "resistor",
    "varistor": "disc",
    "rectifier diode": "diode",
    "ceramic capacitor": "disc",
}
SIGNS = {"within": "✓", "outside": "✗", "cannot tell": "?"}
_HATCH = (
    '<defs><pattern id="allowed" width="10" height="10" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<rect width="3" height="10" fill="#000" fill-opacity="0.3"/></pattern></defs>'
)


def scales(*views) -> tuple[float, ...] | None:
    """From where to where the axis goes, over all the views; None where there is nothing to draw on it."""
    ends = [end for view in views for end in _ends(view)]
    if not ends:
        return None
    low, high = min(ends), max(ends)
    margin = 0.12 * (high - low) or 0.2 * high
    return max(low - margin, 0.0), high + margin


def overlay(view: View, scale: tuple | None, sentence: str) -> str:
    """The part and the two intervals of one view.

    Parameters
    ----------
    scale
        From `scales`.
    sentence
        The text alternative.
    """
    pieces = [f'<g transform="translate(34 46)">{draw(shape_of(view.meaning), view.setting.text)}</g>']
    pieces.append(words(154, 36, view.meaning.part, 17, bold=True))
    pieces += _intervals(view, scale) if scale else [words(_LEFT, 150, view.meaning.text, 20, "start", True)]
    return PICTURE.drawing([_HATCH, *pieces], sentence)


def ghost(view: View, scale: tuple[float, ...]) -> str:
    """The kept view's intervals as dashed outlines."""
    pieces = []
    if scale:
        for low, high, top in _bars(view):
            x, width = _across(scale, low), _across(scale, high) - _across(scale, low)
            pieces.append(
                f'<rect x="{x:.0f}" y="{top - 6}" width="{max(width, 2):.0f}" height="46" fill="none" stroke="{_GHOST}"'
                ' stroke-width="2" stroke-dasharray="5 4"/>'
            )
    return PICTURE.ghost(pieces)


def sentence(view: View) -> str:
    """The picture in words: what is taken, what else it could be, and the verdict."""
    meaning, judgement = view.meaning, view.judgement
    sentences = [f"Taken as a {meaning.part}: {meaning.text}.", meaning.how, *meaning.notes]
    others = [f"{other.text} on a {other.part}" for other in view.meanings if other is not meaning]
    if others:
        sentences.append(f"The same print could also mean {', or '.join(others)}.")
    if judgement:
        sentences.append(
            f"{SIGNS[judgement.word]} {judgement.word[0].upper()}{judgement.word[1:]}. {judgement.sentence}"
        )
    elif view.reason:
        sentences.append(view.reason)
    return " ".join(sentences)


def shape_of(meaning: Meaning) -> str:
    """Which drawn part a meaning stands on."""
    if meaning.part == "capacitor" and meaning.supply == "dc" and meaning.value >= 1e-6:
        return "electrolytic"
    return _SHAPES.get(meaning.part, "film")


def _bars(view):
    """Both intervals, with the height at which each is drawn."""
    meaning = view.meaning
    if meaning.low == meaning.low:
        yield meaning.low, meaning.high, 92
    if view.judgement:
        yield view.judgement.least, view.judgement.most, 196


def _ends(view):
    return [end for low, high, _ in _bars(view) for end in (low, high)]


def _across(scale, value):
    return _LEFT + (_RIGHT - _LEFT) * (value - scale[0]) / (scale[1] - scale[0])


def _intervals(view, scale):
    meaning, judgement = view.meaning, view.judgement
    names = {92: (LOOKS["ideal"], "the mark allows"), 196: (LOOKS["line_current"], "the meter vouches for")}
    for end in (meaning.low, meaning.high) if meaning.low == meaning.low else ():
        x = f"{_across(scale, end):.0f}"
        for top, foot in ((126, 164), (190, 256)) if judgement else ((126, 256),):  # the words between stay clear
            place = f'x1="{x}" y1="{top}" x2="{x}" y2="{foot}"'
            yield f'<line {place} stroke="{_INK}" stroke-width="1.5" stroke-dasharray="4 4"/>'
    for low, high, top in _bars(view):
        look, name = names[top]
        x, width = _across(scale, low), max(_across(scale, high) - _across(scale, low), 2)
        box = f'<rect x="{x:.0f}" y="{top}" width="{width:.0f}" height="34"'
        yield f'{box} fill="{on_page(look.colour)}" fill-opacity="0.45" stroke="{_INK}" stroke-width="2"/>'
        if top == 92:
            yield f'{box} fill="url(#allowed)"/>'
        text = f"{name} {show(low, meaning.unit, 4)} to {show(high, meaning.unit, 4)}"
        yield words(_LEFT, top - 14, text, 17, "start", True, halo=True)
        yield _tick(_across(scale, meaning.value if top == 92 else (low + high) / 2), top - 4, top + 38, 4)
    yield from _axis(scale, meaning.unit)
    if judgement:
        yield words(_RIGHT, 40, f"{SIGNS[judgement.word]} {judgement.word}", 24, "end", True)


def _tick(x, top, foot, width=1.5):
    return f'<line x1="{x:.0f}" y1="{top}" x2="{x:.0f}" y2="{foot}" stroke="{_INK}" stroke-width="{width}"/>'


def _axis(scale, unit):
    """A line with four or so round numbers on it."""
    yield f'<line x1="{_LEFT}" y1="256" x2="{_RIGHT}" y2="256" stroke="{_INK}" stroke-width="2"/>'
    step = nice_scale((scale[1] - scale[0]) / 4, 0.0)
    first = int(scale[0] / step) + 1
    for count in range(first, int(scale[1] / step) + 1):
        x = _across(scale, count * step)
        yield _tick(x, 256, 264)
        yield words(x, 286, show(count * step, unit), 15)
