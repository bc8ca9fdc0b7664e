"""Plain words: which words of a text a reader cannot be expected to know, and its sentences.

A word is known when it is one of the commonest 3,000 lemmas of English (wordfreq's list, lemmas by simplemma), when it
is one of these with -ly, or when the glossary explains it. Numbers, symbols, units, names in capitals (IEC) and the
lamps' own names are not counted. The bound of 2 % is from what is known of reading in a second language: 98 % of the
words of a text have to be known to a reader who is to understand it (Schmitt and others 2011, 661 readers).
"""

import functools
import json
import re
import tomllib
from pathlib import Path

from lesson_pages import DETAILS, FENCE, NOTEBOOKS

COMMON = 3000
GLOSSARY = Path("lib/dropper/lab/extensions/dropper-page/static/glossary.json")
NUMERALS = re.compile(
    r"(?:thir|four|fif|six|seven|eigh|nine)(?:teen|ty)|twenty|forty|eleven|twelve|twice"
    r"|(?:(?:four|fif|six|seven|eigh|nin|ten|hundred|thousand)th|third|quarter)s?"
)
PART = re.compile(r"[a-z]+")
WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
UNIT = r"(?:[pnµmkM]?(?:VA|lm|var|V|A|W|F|Ω|Hz|C|J|m|s|K|h)|°C|%)(?:²s)?"
FIGURE = re.compile(rf"[±−–+]?\d[\d.,]*(?:[  ]?{UNIT}(?![\w]))?")
CODE = re.compile(r"`[^`]*`")
MATH = re.compile(r"\$\$.*?\$\$|\$[^$]+\$", re.DOTALL)
LINK = re.compile(r"!?\[([^\]]*)\]\([^)]*\)")
TAG = re.compile(r"<[^>]+>")
SYMBOL = re.compile(r"(?<!\*)\*[A-Za-zΔ−+\-·/()0-9 =√πΣ]{1,24}\*(?!\*)")
CAPITALS = re.compile(r"\b[A-Z]{2,}\b")
END = re.compile(r"(?<=[.!?])[\"”’)*_]*\s+(?=[\"“(*_]*[A-Z0-9*])")


@functools.cache
def commonest():
    """The commonest lemmas of English."""
    from simplemma import lemmatize
    from wordfreq import top_n_list

    found = {}
    for word in top_n_list("en", 4 * COMMON):
        if PART.fullmatch(word):
            found.setdefault(lemmatize(word, lang="en").lower())
        if len(found) == COMMON:
            return frozenset(found)
    raise AssertionError("the list of words is too short")


@functools.cache
def glossary():
    """The entries of the page's glossary."""
    return json.loads(GLOSSARY.read_text(encoding="utf-8"))


@functools.cache
def explained():
    """Every word and form of the glossary, in small letters."""
    return frozenset(text.lower() for entry in glossary() for text in (entry["word"], *entry.get("forms", ())))


@functools.cache
def _names():
    """The words of the lamps' names."""
    lamps = (tomllib.loads(path.read_text(encoding="utf-8")) for path in sorted((NOTEBOOKS / "lamps").rglob("*.toml")))
    return frozenset(PART.findall(" ".join(str(lamp.get("name", "")) for lamp in lamps).lower()))


@functools.cache
def is_common(word):
    """Whether a word in small letters is one of the commonest, or made of one by a usual ending."""
    from simplemma import lemmatize

    if len(word) < 2 or NUMERALS.fullmatch(word) or word in _names():
        return True
    stem = word.removesuffix("ly")
    return not {word, stem, lemmatize(word, lang="en").lower()}.isdisjoint(commonest())


@functools.cache
def _phrases(known):
    """A pattern of all that is known and more than one word."""
    phrases = sorted((text for text in known if not text.isalpha()), key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, phrases))})(?!\w)")


def unknown(text, known=None):
    """Words of a text that are neither common nor known (in the glossary), as often as they stand; and how many words."""
    known = explained() if known is None else known
    small = CAPITALS.sub(lambda name: name[0] if name[0].lower() in known else " ", FIGURE.sub(" ", text)).lower()
    words = WORD.findall(_phrases(known).sub(" it ", small.replace("’", "'")))
    words = [word.split("'")[0] for word in words if word.isascii()]
    return [word for word in words if word not in known and not is_common(word)], len(words)


def blocks(markdown):
    """The text of a Markdown source as it is read, one paragraph, list item, heading or row a block."""
    text = DETAILS.sub("\n\n", FENCE.sub("\n\n", markdown))
    text = LINK.sub(r"\1", CODE.sub(" x ", MATH.sub(" x ", text)))
    text = SYMBOL.sub(lambda found: found[0] if re.search(r"[a-z]{2}", found[0]) else " x ", TAG.sub(" ", text))
    found, lines = [], []
    for line in [*text.splitlines(), ""]:
        starts = re.match(r"\s*(?:[-*+] |\d+[.)] |#{1,6} |\||>)", line)
        if (starts or not line.strip()) and lines:
            found.append(" ".join(lines))
            lines = []
        if re.match(r"\s*\|", line):
            found += [cell for cell in line.strip().strip("|").split("|") if re.search(r"\w", cell)]
        elif line.strip():
            lines.append(re.sub(r"^\s*(?:[-*+] |\d+[.)] |#{1,6} |> ?)", "", line).strip())
    return [" ".join(re.sub(r"[*_]{1,3}(?=\S)|(?<=\S)[*_]{1,3}", "", block).split()) for block in found]


def sentences(markdown):
    """The sentences of a Markdown source."""
    return [sentence for block in blocks(markdown) for sentence in END.split(block) if re.search(r"\w", sentence)]


def length(sentence):
    """How many words a sentence has; a number with its unit is one."""
    return len([word for word in FIGURE.sub(" n ", sentence).split() if re.search(r"\w", word)])
