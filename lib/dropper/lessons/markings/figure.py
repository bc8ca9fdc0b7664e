"""Markings figure: a resistor drawn with its bands: colours, letters of IEC 60757, names and what each stands for."""

from ...circuit.values import show
from ...components.marks.meaning import is_made
from ...components.marks.preferred_series import of_tolerance
from ...components.marks.similar_colours import partners
from ...results.style import GHOST, INK, PAPER, on_page
from ..kit.part_drawing import DARK, LIGHT, words
from ..kit.picture import Paper
from .view import View, advice

_INK, _GHOST = on_page(INK), on_page(GHOST)
PICTURE = Paper((780, 440))
backdrop = PICTURE.backdrop
_BODY = (54, 92, 672, 92)  # left, top, width, height
_BAND = 56


def scales(*views) -> None:
    """Nothing here has a scale."""


def overlay(view: View, scale: None, sentence: str) -> str:
    """The resistor of one view.

    Parameters
    ----------
    sentence
        The text alternative.
    """
    left, top, width, height = _BODY
    middle = top + height / 2
    pieces = [
        f'<line x1="20" y1="{middle}" x2="{PICTURE.size[0] - 20}" y2="{middle}" stroke="{_INK}" stroke-width="7"/>',
        f'<rect x="{left}" y="{top}" width="{width}" height="{height}" rx="26" fill="#efe6d2" stroke="{_INK}"'
        ' stroke-width="3"/>',
    ]
    for place, (band, x) in enumerate(zip(view.row, _places(len(view.row)), strict=True), start=1):
        pieces.append(_band(view, place, band, x))
    pieces.append(words(24, 40, _from_left(view), 17, "start", True))
    pieces.append(words(PICTURE.size[0] - 24, 72, _from_right(view), 17, "end", True))
    return PICTURE.drawing(pieces, sentence)


def ghost(view: View, scale: None) -> str:
    """The kept resistor, small and grey, at the foot."""
    y = PICTURE.size[1] - 34
    pieces = [
        f'<line x1="24" y1="{y + 14}" x2="236" y2="{y + 14}" stroke="{_GHOST}" stroke-width="3"/>',
        f'<rect x="50" y="{y}" width="160" height="28" rx="9" fill="{on_page(PAPER)}" stroke="{_GHOST}"'
        ' stroke-width="2" stroke-dasharray="5 4"/>',
    ]
    for band, x in zip(view.row, _places(len(view.row)), strict=True):
        at = 50 + 160 * (x - _BODY[0]) / _BODY[2]
        pieces.append(f'<rect x="{at:.0f}" y="{y}" width="13" height="28" fill="{band.paint}" stroke="{_GHOST}"/>')
    text = view.best.text if view.best else "not to be read"
    text = f"kept: {' '.join(band.letters for band in view.row)}, {text}"
    pieces.append(words(252, y + 20, text, 15, "start", colour="#555555"))
    return PICTURE.ghost(pieces)


def sentence(view: View) -> str:
    """The picture in words, with what doubtful bands could be."""
    named = ", ".join(
        band.called + (" (not sure)" if place in view.setting.doubtful else "")
        for place, band in enumerate(view.row, start=1)
    )
    sentences = [f"Bands from the left: {named}."]
    ends = [meaning for meaning in (view.left, view.right) if meaning]
    sentences += [f"Read from the {meaning.end}: {meaning.text}, that is {_range(meaning)}." for meaning in ends]
    sentences += [f"{reason}" for reason in view.refusals]
    if len(ends) == 2:
        sentences.append(_which_end(view, ends))
    if view.setting.doubtful and view.candidates and view.candidates[0].meaning.usual:
        sentences.append(_unusual(view))
    elif len(view.candidates) > 1:
        head = "With the doubtful ones, these bands" if view.setting.doubtful else "From either end, these bands"
        few = f"; {_listed(view)}" if view.fit_count is None else ""
        sentences.append(f"{head} could be {view.count} resistors of preferred values{few}.")
    elif view.candidates and view.setting.doubtful:
        sentences.append(
            f"Of all that the doubtful bands could be, only {view.candidates[0].words} is a preferred value."
        )
    elif view.setting.doubtful:
        sentences.append("Whatever the doubtful bands are, no preferred value comes of it: look again.")
    return " ".join((*sentences, advice(view))).strip()


def _unusual(view):
    """That none of the candidates is of the series that goes with its tolerance."""
    first = view.candidates[0].meaning
    if not is_made(first.value):
        return "Whatever the doubtful bands are, no board like this carries such a resistor: look again, or measure."
    return (
        f"Whatever the doubtful bands are, no value of E{of_tolerance(first.minus)} comes of it, in which"
        f" {first.tolerance} is made: look again, or measure."
    )


def _listed(view):
    few = "; ".join(candidate.words for candidate in view.candidates[:2])
    if len(view.candidates) == 2 == view.count:
        return f"they are {few}"
    return f"the likeliest are {few}; more stand below"


def _which_end(view, ends):
    if view.left.text == view.right.text:
        return "Both ends say the same."
    if view.left.usual != view.right.usual:
        return f"{view.best.text} is the likelier: such parts are made."
    return (
        "Neither is likelier by its value. On the part, the wider gap stands before the last bands (the gap drawn here"
        " is no evidence); else measure."
    )


def _range(meaning):
    between = f"{show(meaning.low, 'Ω', 4)} to {show(meaning.high, 'Ω', 4)}"
    if not is_made(meaning.value):
        return f"{between}, which no board like this carries"
    if meaning.usual == 0:
        return f"{between}, a value of E{meaning.series}"
    return f"{between}; it is no value of E{of_tolerance(meaning.minus)}, in which {meaning.tolerance} is made"


def _places(count):
    """The left edges of the bands; before the tolerance there is a wider gap."""
    left, _, width, _ = _BODY
    gaps = count + (1 if count > 3 else 0)
    step = (width - 20) / gaps
    late = {4: 3, 5: 4, 6: 4}.get(count, count)
    shifts = [0.8 if place >= late else 0.0 for place in range(count)]
    return [left + 10 + step * (place + shift) + (step - _BAND) / 2 for place, shift in enumerate(shifts)]


def _band(view, place, band, x):
    _, top, _, height = _BODY
    unsure = place in view.setting.doubtful
    middle, foot = x + _BAND / 2, top + height
    dark = band.name in ("black", "brown", "red", "blue", "violet", "grey", "green")
    edge = f'stroke="{DARK}" stroke-width="{5 if unsure else 2}"' + (' stroke-dasharray="9 6"' if unsure else "")
    role = view.roles[place - 1]
    pieces = [
        f'<rect x="{x:.0f}" y="{top}" width="{_BAND}" height="{height}" fill="{band.paint}" {edge}/>',
        words(middle, top + height / 2 + 7, band.letters, 20, bold=True, colour=LIGHT if dark else DARK),
        words(middle, foot + 26, f"{place} ?" if unsure else str(place), 17, bold=True),
        words(middle, foot + 48, band.name, 17, bold=True),
        words(middle, foot + 70, _stands_for(band, role), 16),
        *(words(middle, foot + 90 + 16 * row, line, 14) for row, line in enumerate(role.split(" "))),
    ]
    if unsure:
        others = partners(band.name, view.setting.sights)
        pieces += [words(middle, foot + 134 + 16 * row, f"or {other}", 14) for row, other in enumerate(others[:6])]
    return "".join(pieces)


def _stands_for(band, role):
    if role.endswith("digit"):
        return "–" if band.digit is None else str(band.digit)
    if role == "multiplier":
        return f"× {10**band.power:,}".replace(",", " ") if 0 <= band.power < 5 else f"× 10{_raised(band.power)}"
    if role == "tolerance":
        return "–" if band.tolerance is None else f"± {band.tolerance:g} %"
    return "–" if band.coefficient is None else f"{band.coefficient:g} ppm/K"


def _raised(power):
    return str(power).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))


def _from_left(view):
    return f"→ from the left: {view.left.text if view.left else 'not to be read'}"


def _from_right(view):
    return f"from the right: {view.right.text if view.right else 'not to be read'} ←"
