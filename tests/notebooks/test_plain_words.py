"""Words of the lessons: short sentences, few words, and none that a reader has to look up.

One lesson by itself, with what is wrong named word by word:

    python -m pytest -n 0 tests/notebooks/test_plain_words.py --tb=line -k 02
"""

import re
from collections import Counter

import pytest
from lesson_pages import PATHS, cells, panel_texts
from plain_words import END, blocks, explained, glossary, length, sentences, unknown

MOST_WORDS, LONGEST, LONGEST_GOAL, ALL_GOALS = 1100, 25, 20, 120
MOST_UNKNOWN = 0.02
# Words that are not to stand in a lesson, and what to say in their place.
FORBIDDEN = {
    r"waver\w*": "flicker, or goes up and down",
    r"told(?! apart)": "said, shown or given",
    r"by lot|drawn lots": "at random",
    r"siblings?": "the trade's word",
}
WITNESS, SECOND_WAY = re.compile(r"\bwitness\w*", re.IGNORECASE), "second way to the same number"
every_lesson = pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)


def core(path):
    """Where each text of the core path stands, and its Markdown: cells in sight, then the panels' texts."""
    texts = [(str(cell), cell.in_sight) for cell in cells(path) if cell.kind == "markdown" and cell.in_sight]
    return texts + panel_texts(path)


@every_lesson
def test_a_core_path_has_few_enough_words(path):
    counts = [(sum(map(length, sentences(text))), where) for where, text in core(path)]
    total = sum(count for count, _ in counts)
    most = "\n".join(f"{count:5} {where}" for count, where in sorted(counts, reverse=True)[:12])
    assert total <= MOST_WORDS, f"{total} words in sight, at most {MOST_WORDS}; the longest:\n{most}"


@every_lesson
def test_no_sentence_of_a_core_path_is_too_long(path):
    long = [
        f"{length(sentence)} words, {where}: {sentence}"
        for where, text in core(path)
        for sentence in sentences(text)
        if length(sentence) > (LONGEST_GOAL if where.endswith(", goal") else LONGEST)
    ]
    assert not long, "\n".join(long)


@every_lesson
def test_goals_are_short(path):
    goals = [(where, text) for where, text in panel_texts(path) if where.endswith(", goal")]
    words = Counter()
    for where, text in goals:
        words[where] += sum(map(length, sentences(text)))
    assert all(count <= ALL_GOALS for count in words.values()), f"at most {ALL_GOALS} words of goals a panel: {words}"


@every_lesson
def test_a_reader_knows_the_words(path):
    strange, total = Counter(), 0
    for _, text in core(path):
        words, count = unknown("\n".join(blocks(text)))
        strange.update(words)
        total += count
    share, named = sum(strange.values()) / total, ", ".join(f"{word} {count}" for word, count in strange.most_common())
    assert share <= MOST_UNKNOWN, f"{share:.1%} of {total} words are neither common nor in the glossary: {named}"


@every_lesson
def test_words_of_our_own_stand_in_no_lesson(path):
    texts = [(str(cell), cell.source) for cell in cells(path) if cell.kind == "markdown"] + panel_texts(path)
    found = [
        f"{where}: {match[0]!r} — say: {instead}"
        for where, text in texts
        for words, instead in FORBIDDEN.items()
        for match in re.finditer(rf"\b(?:{words})\b", text, re.IGNORECASE)
    ]
    found += [
        f"{where}: {match[0]!r} — only where the words 'a {SECOND_WAY}' explain it"
        for where, text in texts
        for match in WITNESS.finditer(text)
        if SECOND_WAY not in " ".join(text.split())
    ]
    assert not found, "\n".join(found)


# The glossary


def texts_of(entry):
    """A word of the glossary and its forms."""
    return (entry["word"], *entry.get("forms", ()))


def test_a_word_of_the_glossary_stands_in_it_once():
    words = [entry["word"].lower() for entry in glossary()]
    forms = Counter(text for entry in glossary() for text in {text.lower() for text in texts_of(entry)})
    twice = [text for text, count in forms.items() if count > 1]
    assert not twice, f"more than once: {twice}"
    assert words == sorted(words), "the glossary is in the order of the alphabet"


@pytest.mark.parametrize("entry", glossary(), ids=lambda entry: entry["word"])
def test_a_meaning_is_short_and_in_common_words(entry):
    assert set(entry) <= {"word", "forms", "meaning", "known"} and entry.get("known", True) is True
    meaning = entry["meaning"]
    assert 0 < length(meaning) <= 20, f"{length(meaning)} words: {meaning}"
    assert len(END.split(meaning)) == 1 and not meaning.endswith("."), "one phrase, no full stop"
    assert not unknown(meaning)[0], f"neither common nor explained: {unknown(meaning)[0]}"
    own = {text.lower() for text in texts_of(entry)}
    assert not unknown(meaning, explained() - own)[0], f"{entry['word']!r} is explained by itself"
