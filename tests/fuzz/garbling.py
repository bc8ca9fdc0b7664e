"""Garbling: texts as people, editors and broken disks leave them."""

import random
from collections.abc import Iterator, Sequence

PIECES = (
    *"0123456789.,-+ eEµumkMGpnRΩFVAWHz%°'\"=[]{}()#/\\|;:~_\t\n\r",
    *("nan", "inf", "1e999", "-0", "1e-400", "1_000", "0x1F", "true", "none", "null", "1/0", "9" * 30, "0." + "3" * 30),
    *("nF", "kΩ", "mA", "Vrms", "Vp", "VAC", "MOhm", "4k7", "R47", "2,2", "1.000,5", "١٢", "½", "−5", "×10⁻³", "10^6"),
    *("<script>", "</b>", "${x}", "{0}", "%s", "{{", "../", "&amp;", "\0", "\ufeff", "\u200b", "\u202e", "\xa0", "é"),
    *("\ud7ff", "👩‍🔧", "ﬀ", "İ", "ß", "\x1b[31m", "\x85", "\u2028", "´", "…", "ω", "K", "Å"),
    *("red", "brown", "gold", "schwarz", "474K", "X2", "275V~", "1N4007", "0603", "01C", "J", "10D471K", "±5%"),
)


def of_pieces(draw: random.Random, pieces: Sequence[str] = PIECES, longest: int = 14) -> str:
    """Some pieces in a row; now and then a very long row of one."""
    if draw.random() < 0.01:
        return draw.choice(pieces) * draw.choice((100, 10_000))
    return "".join(draw.choice(pieces) for _ in range(draw.randint(0, longest)))


def garbled(draw: random.Random, text: str, pieces: Sequence[str] = PIECES) -> str:
    """A text after some accidents."""
    for _ in range(draw.choice((1, 1, 1, 2, 3, 8))):
        start = draw.randint(0, len(text))
        end = min(len(text), start + draw.choice((0, 1, 1, 2, 5, 30, 200)))
        accident = draw.randrange(7)
        if accident == 0:  # lost
            text = text[:start] + text[end:]
        elif accident == 1:  # twice
            text = text[:end] + text[start:]
        elif accident == 2:  # something else in its place
            text = text[:start] + of_pieces(draw, pieces, 3) + text[end:]
        elif accident == 3:  # something in between
            text = text[:start] + draw.choice(pieces) + text[start:]
        elif accident == 4:  # lines in another order
            lines = text.splitlines(keepends=True)
            draw.shuffle(lines)
            text = "".join(lines)
        elif accident == 5:  # a line is lost or comes again
            lines = text.splitlines(keepends=True)
            if lines:
                lines[draw.randrange(len(lines))] *= draw.choice((0, 2))
            text = "".join(lines)
        elif draw.random() < 0.3:  # broken off
            text = text[:start]
    return text


def as_bytes(draw: random.Random, text: str) -> bytes:
    """The bytes of a text as different programs write them, now and then with a few that are wrong."""
    encoding = draw.choice(("utf-8",) * 6 + ("utf-8-sig", "utf-16", "utf-16-le", "latin-1", "cp1252"))
    data = bytearray(text.encode(encoding, "replace"))
    if draw.random() < 0.2 and data:
        for _ in range(draw.randint(1, 4)):
            data[draw.randrange(len(data))] = draw.randrange(256)
    return bytes(data)


def texts(seed: int, count: int, bases: Sequence[str], pieces: Sequence[str] = PIECES) -> Iterator[str]:
    """Half of them garbled from `bases`, the rest of pieces."""
    draw = random.Random(seed)
    for _ in range(count):
        yield garbled(draw, draw.choice(bases), pieces) if draw.random() < 0.5 else of_pieces(draw, pieces)
