"""Order of a lesson's page: prediction, sliders and picture first, the rest after them, what goes deeper folded.

One lesson by itself:

    python -m pytest -n 0 tests/notebooks/test_page_order.py --tb=short -k 02
"""

import ast
import re
from itertools import pairwise
from urllib.parse import unquote

import pytest
from lesson_pages import DETAILS, FENCE, NOTEBOOKS, PATHS, cells, headings, lesson_calls, panel_calls
from plain_words import length, sentences

NAMES = [path.name for path in PATHS]
MAP, CAUTIONS = "The-map", "Before-anything-else:-this-is-mains"
LINK = re.compile(r"\]\(([^)\s]+)\)")
FOLDED = ("derivation", "further", "sources", "a second way", "published")
every_lesson = pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)


def text_of(cell):
    """A Markdown cell without its fences of code."""
    return FENCE.sub("", cell.source)


def neighbour(path, step):
    """The name of the lesson before or after, "" for none."""
    place = NAMES.index(path.name) + step
    return NAMES[place] if 0 <= place < len(NAMES) else ""


def first_panel(path):
    """The place of the first cell that makes a panel."""
    return next((cell.number for cell, _, _ in panel_calls(path)), None)


def words_of(markdown):
    return sum(map(length, sentences(markdown)))


def section(path, name):
    """The text of the section in sight whose heading begins so, without the heading; None where there is none."""
    found, inside = [], 0
    for cell in cells(path):
        if cell.kind != "markdown" or cell.folded:
            continue
        if cell.level and inside and cell.level <= inside:
            break
        heads = headings(cell.source)
        if not inside and heads and heads[0][1].lower().startswith(name):
            inside = heads[0][0]
            found.append(DETAILS.sub("", re.sub(r"^#+ .*$", "", text_of(cell), count=1, flags=re.MULTILINE)))
        elif inside:
            found.append(cell.in_sight)
    return "\n\n".join(found) if inside else None


def anchors(name):
    """The places in a notebook that a link may name: its headings, spaces as hyphens."""
    texts = [text for cell in cells(NOTEBOOKS / name) if cell.kind == "markdown" for _, text in headings(cell.source)]
    plain = [re.sub(r"[*_`]|\$", "", text) for text in texts]
    return {text.replace(" ", "-") for text in plain}


@every_lesson
def test_the_head_says_where_we_are(path):
    head, number = cells(path)[0], path.name[:2]
    lines = head.source.strip().splitlines()
    assert head.kind == "markdown" and len(lines) == 3 and not lines[1].strip(), (
        "title, an empty line, one line of where"
    )
    assert lines[0].startswith(f"# {number} · "), lines[0]
    assert re.match(rf"Lesson {number} of 00–14 · about \d+ minutes\b", lines[2]), lines[2]
    wanted = {"back": neighbour(path, -1), "on": neighbour(path, 1), "map": f"{NAMES[0]}#{MAP}"}
    if number == "00":
        wanted["map"] = f"#{MAP}"
    links = {words.split(":")[0]: to for words, to in re.findall(r"\[([^\]]+)\]\(([^)]+)\)", lines[2])}
    assert links == {words: to for words, to in wanted.items() if to}


@every_lesson
def test_every_link_leads_somewhere(path):
    wrong = []
    for cell in cells(path):
        for target in LINK.findall(text_of(cell)) if cell.kind == "markdown" else ():
            if re.match(r"[a-z]+:", target):
                continue
            name, _, place = unquote(target).partition("#")
            if name and not (NOTEBOOKS / name).exists():
                wrong.append(f"{cell}: there is no {name}")
            elif place and (name or path.name).endswith(".ipynb") and place not in anchors(name or path.name):
                wrong.append(f"{cell}: {name or path.name} has no heading {place!r}")
    assert not wrong, "\n".join(wrong)


@every_lesson
def test_nothing_but_puzzle_and_caution_stands_above_the_first_panel(path):
    first = first_panel(path)
    assert first is not None, "no cell makes a panel"
    asks = {cell.number for cell, name, _ in lesson_calls(path) if name in ("Recall", "MyLamp")}
    above = [cell for cell in cells(path)[1:first] if cell.number not in asks]
    kinds = [cell.kind for cell in above]
    assert kinds == ["markdown", "markdown"], f"puzzle and caution: {', '.join(map(str, above))}"
    puzzle, caution = above
    heads = headings(puzzle.source)
    assert heads in ([], [(2, "A puzzle")]), f"no heading, or 'A puzzle': {heads}"
    count = words_of(re.sub(r"^#+ .*$", "", puzzle.source, flags=re.MULTILINE))
    assert count <= 60, f"the puzzle has {count} words, at most 60"
    assert len(caution.source.strip().splitlines()) == 1, "the caution is one line"
    assert "mains" in caution.source and f"#{CAUTIONS})" in caution.source, f"a caution, and its link: {caution}"
    panel = cells(path)[first]
    assert panel.hidden and not panel.folded, f"the panel's code is hidden: {panel}"


@every_lesson
def test_no_cell_asserts(path):
    wrong = [
        str(cell)
        for cell in cells(path)
        if cell.kind == "code" and any(isinstance(node, ast.Assert) for node in ast.walk(ast.parse(cell.source)))
    ]
    assert not wrong, "figures are held in tests/notebooks/test_stated_NN.py: " + "; ".join(wrong)


@every_lesson
def test_little_code_is_in_sight(path):
    shown = {
        str(cell): sum(1 for line in cell.in_sight.splitlines() if line.strip())
        for cell in cells(path)
        if cell.kind == "code" and cell.in_sight
    }
    assert sum(shown.values()) <= 20, f"{sum(shown.values())} lines, at most 20: {shown}"


@every_lesson
def test_hidden_code_says_in_words_what_it_does(path):
    wrong = [
        str(cell)
        for cell in cells(path)
        if cell.kind == "code" and cell.hidden and not re.match(r"# ?[A-Z][^=()]*[a-z].* .*\n", cell.source)
    ]
    assert not wrong, "\n".join(wrong)
    bare = [str(cell) for cell in cells(path) if cell.kind == "code" and cell.folded and not cell.hidden]
    assert not bare, "code in a folded section is hidden too: " + "; ".join(bare)


@every_lesson
def test_what_goes_deeper_is_folded(path):
    wrong = []
    for cell in cells(path):
        heads = headings(cell.source) if cell.kind == "markdown" and not cell.folded else []
        if heads and heads[0][1].lower().startswith(FOLDED):
            if cell.metadata.get("jp-MarkdownHeadingCollapsed") is not True:
                wrong.append(f"{cell} does not fold")
            elif cell.source.strip().count("\n"):
                wrong.append(f"{cell}: text beside a folding heading stays in sight")
    assert not wrong, "\n".join(wrong)
    folds = [cell for cell in cells(path) if cell.metadata.get("jp-MarkdownHeadingCollapsed") is True]
    assert any(headings(cell.source)[0][1].startswith("Further") for cell in folds), "no folded section 'Further'"


@every_lesson
def test_the_core_path_ends_with_what_was_learned_and_a_link_on(path):
    learned = section(path, "what we learned")
    assert learned is not None, "no section 'What we learned' in sight"
    *text, last = [line for line in learned.splitlines() if line.strip()]
    on = neighbour(path, 1)
    assert last.startswith("**On:** ") if on else f"#{MAP})" in last, f"the last line leads on: {last}"
    links = LINK.findall(last)
    assert not on or links[0] == on, f"the first link of {last!r} is {on}"
    assert any(link.endswith(f"#{MAP}") for link in links), f"{last!r} leads to the map"
    count = words_of("\n".join(text))
    assert count <= 60, f"'What we learned' has {count} words, at most 60"
    seen = [cell for cell in cells(path) if cell.in_sight and not cell.metadata.get("jp-MarkdownHeadingCollapsed")]
    assert seen[-1].in_sight.rstrip().endswith(last.strip()), f"after it stands {seen[-1]}"


@every_lesson
def test_why_is_short(path):
    why = section(path, "why")
    assert why is not None, "no section 'Why' in sight"
    assert words_of(why) <= 250, f"{words_of(why)} words, at most 250"


@every_lesson
def test_questions_are_asked(path):
    if path.name.startswith("00"):
        return
    asks = [(cell, call) for cell, name, call in lesson_calls(path) if name == "Tasks"]
    assert len(asks) == 1 and not asks[0][0].folded, "one cell of tasks, in sight"
    assert asks[0][1].args[0].value == int(path.name[:2]), "the tasks of this lesson"


@every_lesson
def test_no_heading_is_skipped_and_there_are_not_too_many_cells(path):
    levels = [
        (level, words) for cell in cells(path) if cell.kind == "markdown" for level, words in headings(cell.source)
    ]
    wrong = [words for (before, _), (level, words) in pairwise(levels) if level > before + 1]
    assert [level for level, _ in levels].count(1) == 1 and levels[0][0] == 1, "one heading of level 1, the first"
    assert not wrong, f"a level is skipped before {wrong}"
    assert len(cells(path)) <= 45, f"{len(cells(path))} cells, at most 45"
