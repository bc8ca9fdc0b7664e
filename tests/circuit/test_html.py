"""HTML: what is text is escaped, what is markup is not, and what comes out is well formed for a parser of its own."""

from html.parser import HTMLParser

import pytest
from dropper.circuit.html import Markup, from_markdown, items, joined, table, tag
from hypothesis import given
from hypothesis import strategies as st


class Reader(HTMLParser):
    """Elements, attributes and text, as the standard library's parser reads them."""

    def __init__(self, page):
        super().__init__(convert_charrefs=True)
        self.opened, self.open, self.text = [], [], []
        self.feed(page)
        self.close()

    def handle_starttag(self, name, attributes):
        self.opened.append((name, dict(attributes)))
        if name != "br":
            self.open.append(name)

    def handle_endtag(self, name):
        assert self.open.pop() == name

    def handle_data(self, text):
        self.text.append(text)


TEXT = st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=30)


@given(TEXT, TEXT)
def test_a_parser_reads_back_what_was_put_in(text, label):
    read = Reader(tag("p", text, tag("b", label), css="words", aria_label=label))
    assert [name for name, _ in read.opened] == ["p", "b"] and not read.open
    assert "".join(read.text) == text + label
    assert read.opened[0][1] == {"class": "words"} | ({"aria-label": label} if label else {})


@given(st.lists(st.tuples(TEXT, TEXT, TEXT), max_size=5))
def test_a_table_has_a_cell_for_every_text(rows):
    page = table(
        "A & B", ("one", "two", "<three>"), rows, css="n", columns={2: 'class="wide"'}, cells={1: 'class="now"'}
    )
    read = Reader(page)
    names = [name for name, _ in read.opened if name != "br"]
    assert names == ["table", "caption", "thead", "tr", *["th"] * 3, "tbody", *["tr", "th", "td", "td"] * len(rows)]
    heads = [attributes.get("scope") for name, attributes in read.opened if name == "th"]
    assert heads == ["col"] * 3 + ["row"] * len(rows)
    classes = [attributes.get("class") for name, attributes in read.opened if name == "td"]
    assert classes == ["now", "wide"] * len(rows)
    assert "".join("".join(read.text).split()) == "".join(
        "".join(["A & B", "one", "two", "<three>", *(text for row in rows for text in row)]).split()
    )


def test_markup_stays_markup_and_lines_stay_lines():
    assert items(["<a>", Markup("<a>")]) == "<li>&lt;a&gt;</li><li><a></li>"
    assert joined("1 < 2 ", tag("i", "so")) == "1 &lt; 2 <i>so</i>"
    assert "<td>a<br>b</td>" in table("", (), [("", "a\nb")])
    assert "<thead>" not in table("", (), [("", "a")])


@pytest.mark.parametrize("formula", ["$a < b$", "$$ x_1 * y * z_1 $$"])
def test_formulas_in_markdown_are_left_to_the_page(formula):
    page = from_markdown(f"**So** {formula} it is.")
    assert page.startswith("<p><strong>So</strong> ") and formula.replace("<", "&lt;") in page
