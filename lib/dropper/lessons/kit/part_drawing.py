"""Part drawing: parts as they look, in plain shapes with words: resistor, film capacitor, disc, can, diodes, LEDs."""

from html import escape

from ...components.marks.any_mark import as_bands
from ...components.marks.colours import COLOURS
from ...results.style import FONT, INK, PAPER, on_page

SIZE = (240, 230)
DARK, LIGHT = "#000000", "#fefefe"  # what is printed on a part, whatever the page looks like
_LEAD = f'stroke="{on_page(INK)}" stroke-width="4" stroke-linecap="round"'
_EDGE = f'stroke="{on_page(INK)}" stroke-width="2.5"'


def words(
    x: float,
    y: float,
    text: str,
    size: float = 17,
    anchor: str = "middle",
    bold: bool = False,
    colour: str = INK,
    halo: bool = False,
    turn: float = 0,
) -> str:
    """A line of text as SVG.

    Parameters
    ----------
    x, y
        Where it is anchored.
    anchor
        "start", "middle" or "end".
    halo
        A white edge round the letters.
    turn
        Degrees clockwise.
    """
    weight = ' font-weight="bold"' if bold else ""
    edge = f' paint-order="stroke" stroke="{on_page(PAPER)}" stroke-width="4" stroke-linejoin="round"' if halo else ""
    turned = f' transform="rotate({turn} {x:.0f} {y:.0f})"' if turn else ""
    return (
        f'<text x="{x:.0f}" y="{y:.0f}" font-size="{size:g}" text-anchor="{anchor}" font-family="{FONT}"'
        f' fill="{on_page(colour)}"{weight}{edge}{turned}>{escape(text)}</text>'
    )


def draw(key: str, text: str = "") -> str:
    """A part in a box of `SIZE`, with what is printed on it and its signs of polarity in words.

    Parameters
    ----------
    key
        One of `SHAPES`.
    text
        The print; "" for none.

    Returns
    -------
    str
        A piece of SVG.

    Raises
    ------
    KeyError
        For a part that is not drawn here.
    """
    return SHAPES[key](text)


def _lead(x1, y1, x2, y2):
    return f'<line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}" {_LEAD}/>'


def _print(text, x, y, most, colour=DARK):
    """A print in up to three lines that fit."""
    lines, rest = [], text.split()
    while rest:
        line = rest.pop(0)
        while rest and len(line) + len(rest[0]) < most:
            line += " " + rest.pop(0)
        lines.append(line if len(line) <= most + 3 else line[: most + 2] + "…")
    lines = lines[:3]
    start = y - 11 * (len(lines) - 1)
    return "".join(words(x, start + 22 * row, line, 18, bold=True, colour=colour) for row, line in enumerate(lines))


def _places(count):
    """Where the bands of the small resistor stand; the last ones keep a gap."""
    early = {3: 3, 4: 3, 5: 4, 6: 4}.get(count, count)
    return [70 + 17 * place + (12 if place >= early else 0) for place in range(count)]


def _resistor(text):
    names = (as_bands(text) if text else ()) or ("red", "violet", "brown", "gold")
    bands = "".join(
        f'<rect x="{x}" y="74" width="12" height="52" fill="{paint}" {_EDGE}/>'
        for x, paint in zip(_places(len(names)), (COLOURS[name].paint for name in names), strict=True)
    )
    if text and not as_bands(text):
        bands = _print(text, 120, 106, 11)
    return (
        f'{_lead(10, 100, 56, 100)}{_lead(184, 100, 230, 100)}<rect x="56" y="74" width="128" height="52" rx="16"'
        f' fill="#efe6d2" {_EDGE}/>{bands}{words(120, 160, "either way round")}'
    )


def _film(text):
    return (
        f'{_lead(76, 140, 76, 196)}{_lead(164, 140, 164, 196)}<rect x="46" y="42" width="148" height="100" rx="6"'
        f' fill="#f3d27a" {_EDGE}/>{_print(text or "474K 275V~ X2", 120, 98, 11)}'
        f"{words(120, 222, 'either way round')}"
    )


def _disc(text):
    return (
        f'{_lead(92, 128, 92, 196)}{_lead(148, 128, 148, 196)}<circle cx="120" cy="88" r="58" fill="#8fc1de" {_EDGE}/>'
        f"{_print(text or '471K', 120, 94, 8)}{words(120, 222, 'either way round')}"
    )


def _electrolytic(text):
    signs = "".join(words(70, y, "−", 26, bold=True, colour=LIGHT) for y in (62, 94, 126))
    return (
        f'{_lead(78, 142, 78, 176)}{_lead(162, 142, 162, 200)}<rect x="52" y="26" width="136" height="118" rx="10"'
        f' fill="#dfe6ea" {_EDGE}/><rect x="52" y="26" width="36" height="118" rx="8" fill="{DARK}"/>{signs}'
        f"{_print(text or '10 µF 100 V', 138, 88, 7)}{words(66, 196, '− stripe', 17, bold=True)}"
        f"{words(162, 222, '+ longer lead', 17, bold=True)}"
    )


def _diode(text):
    return (
        f'{_lead(10, 100, 56, 100)}{_lead(184, 100, 230, 100)}<rect x="56" y="72" width="128" height="56" rx="5"'
        f' fill="#2b2b2b" {_EDGE}/><rect x="156" y="72" width="16" height="56" fill="#e6e6e6"/>'
        f"{_print(text or '1N4007', 106, 107, 9, LIGHT)}{words(28, 150, 'anode', 17, bold=True)}"
        f"{words(196, 150, 'cathode', 17, bold=True)}{words(164, 60, 'band', 17)}"
        f"{words(120, 196, 'current flows →', 17)}"
    )


def _bridge(text):
    pins = "".join(
        _lead(x, 132, x, 186) + words(x, 122, sign, 22, bold=True, colour=LIGHT)
        for x, sign in ((48, "+"), (96, "~"), (144, "~"), (192, "−"))
    )
    for x, name in ((48, "bus +"), (120, "mains"), (192, "bus −")):
        pins += words(x, 210, name, 16, bold=True)
    case = f'<rect x="26" y="46" width="188" height="88" rx="6" fill="#2b2b2b" {_EDGE}/>'
    return f"{case}{_print(text, 120, 84, 14, LIGHT)}{pins}"


def _led(text):
    return (
        f'<path d="M74,120 V74 c0,-25 21,-46 46,-46 c25,0 46,21 46,46 V120 z" fill="#f6f3c8" {_EDGE}/>'
        f'<path d="M62,120 h106 v16 h-106 z" fill="#f6f3c8" {_EDGE}/><line x1="168" y1="104" x2="168" y2="150"'
        f' stroke="{on_page(INK)}" stroke-width="5"/>{_lead(92, 136, 92, 214)}{_lead(146, 136, 146, 184)}'
        f"{words(84, 176, 'anode +', 16, 'end', True)}{words(84, 196, 'longer lead', 15, 'end')}"
        f"{words(154, 176, 'cathode −', 16, 'start', True)}{words(176, 98, 'flat', 15, 'start')}"
    )


def _chip_led(text):
    return (
        f'<path d="M60,60 h120 v76 h-100 l-20,-20 z" fill="#f7f7f2" {_EDGE}/><rect x="84" y="74" width="72" height="46"'
        f' rx="8" fill="#f3d27a" {_EDGE}/>{words(70, 160, "cut corner:", 16)}'
        f"{words(120, 184, 'cathode on many kinds,', 16, bold=True)}{words(120, 206, 'not on all', 16, bold=True)}"
    )


def _chip(text):
    ends = "".join(f'<rect x="{x}" y="62" width="26" height="76" fill="#c0c0c0" {_EDGE}/>' for x in (38, 176))
    return (
        f'<rect x="38" y="62" width="164" height="76" fill="#2b2b2b" {_EDGE}/>{ends}'
        f"{_print(text or '474', 120, 107, 9, LIGHT)}{words(120, 172, 'either way round')}"
    )


SHAPES = {
    "resistor": _resistor,
    "chip": _chip,
    "film": _film,
    "disc": _disc,
    "electrolytic": _electrolytic,
    "diode": _diode,
    "bridge": _bridge,
    "led": _led,
    "chip_led": _chip_led,
}
