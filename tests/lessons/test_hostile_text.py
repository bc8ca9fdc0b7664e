"""What people type or open is never taken for HTML: every panel, page and table of a hostile lamp, read by a parser."""

import functools
from contextlib import suppress
from html import escape
from html.parser import HTMLParser
from xml.etree import ElementTree

import hostile_text
import ipywidgets as widgets
import pytest
from dropper.circuit.html import Markup, from_markdown, tag
from dropper.lessons.kit import picture_panel
from dropper.lessons.kit.markup import Html, HtmlMath
from dropper.lessons.kit.saved_picture import KINDS

TEXT = "a abbr b bdi br caption code dd del details div dl dt em h1 h2 h3 hr i iframe li ol p pre span strong style"
PAGES = "small summary table tbody td th thead tr ul body footer head header html main meta section template title"
DRAWN = "circle defs ellipse g line path pattern polygon polyline rect svg text tspan"
KNOWN = {*TEXT.split(), *PAGES.split(), *DRAWN.split()}
ADDRESSES = (
    "/files/",
    "data:text/",
    "data:image/png;",
    "data:image/svg+xml;",
    "data:application/pdf;",
    "data:application/toml;",
)


class Reader(HTMLParser):
    """What is wrong with a piece of HTML: elements that nobody writes here, and attributes that run something."""

    def __init__(self, page):
        super().__init__(convert_charrefs=True)
        self.wrong = []
        self.feed(str(page))
        self.close()

    def handle_starttag(self, name, attributes):
        if name not in KNOWN and (name, dict(attributes).get("class")) != ("button", "dropper-why"):
            self.wrong.append(f"<{name}>")
        for key, value in attributes:
            if key.startswith("on") or key in ("autofocus", "formaction"):
                self.wrong.append(f"<{name} {key}>")
            if key in ("href", "src", "action") and not (value or "").startswith(ADDRESSES):
                self.wrong.append(f"<{name} {key}={value}>")
            if key == "srcdoc":
                self.wrong += Reader(value).wrong
        if name == "iframe" and dict(attributes).get("sandbox", "missing"):
            self.wrong.append("<iframe> that may run scripts")


@functools.cache
def in_html(text):
    return tuple(Reader(text).wrong)


def every(widget):
    """A widget and all within it."""
    yield widget
    for child in getattr(widget, "children", ()):
        yield from every(child)


def wrong_in(panel):
    """What is wrong with the HTML that a panel shows; the widgets that show HTML and do not escape."""
    found = []
    for widget in every(panel):
        if isinstance(widget, widgets.HTML | widgets.HTMLMath):
            found += in_html(widget.value)
            if widget.value and not (isinstance(widget, Html | HtmlMath) and isinstance(widget.value, Markup)):
                found.append(f"{type(widget).__name__} takes text for HTML: {widget.value[:60]}")
    return found


def use(panel, name):
    """Do with a panel whatever can be done, hostile text in every field; what is wrong after each step."""

    def step(act):
        with suppress(ValueError, TypeError):  # a widget's own refusal
            act()
        if hasattr(panel, "write_now") and panel.view is not None:
            panel.write_now()
        return wrong_in(panel)

    yield from wrong_in(panel)
    for widget in list(every(panel)):
        if isinstance(widget, widgets.RadioButtons) and widget.options:
            yield from step(lambda widget=widget: setattr(widget, "index", 0))
    for round_of_two in range(2):
        for widget in list(every(panel)):
            if isinstance(widget, widgets.Button):
                yield from step(widget.click)
            elif isinstance(widget, widgets.Text | widgets.Textarea) and not round_of_two:
                yield from step(lambda widget=widget: setattr(widget, "value", name))
            elif isinstance(widget, widgets.Dropdown) and widget.options and not round_of_two:
                yield from step(lambda widget=widget: setattr(widget, "index", len(widget.options) - 1))
            elif isinstance(widget, widgets.FileUpload) and not round_of_two:
                for content in (b"", name.encode(), b"name = '''" + name.encode() + b"'''"):
                    sent = (hostile_text.upload(name, content),)
                    yield from step(lambda widget=widget, sent=sent: setattr(widget, "value", sent))


@pytest.fixture(
    scope="module",
    params=[hostile_text.NAMES[0], *(pytest.param(name, marks=pytest.mark.wide) for name in hostile_text.NAMES[1:])],
)
def hostile(request, tmp_path_factory):
    """A folder with files of a name, and the lamp's own file in it."""
    folder = tmp_path_factory.mktemp("hostile")
    return folder, hostile_text.write_files(folder, request.param), request.param


def test_the_parser_of_this_test_sees_what_runs():
    for name in hostile_text.NAMES[:2]:
        assert Reader(f"<p>{name}</p>").wrong, name
    assert Reader('<a href="javascript:x">').wrong and not Reader('<a href="/files/x.html">').wrong
    assert Reader('<iframe sandbox="allow-scripts">').wrong and not Reader("<iframe sandbox>").wrong


def test_no_panel_takes_a_name_for_html(hostile, monkeypatch):
    folder, path, name = hostile
    monkeypatch.chdir(folder)
    monkeypatch.setattr(picture_panel, "save", lambda *_: b"")  # saved pictures have their own test
    wrong = {}
    for label, panel in hostile_text.panels(path):
        if found := sorted(set(use(panel, name))):
            wrong[label] = found
    assert not wrong, "\n".join(f"{label}: {'; '.join(found)}" for label, found in wrong.items())


def test_no_page_and_no_table_takes_a_name_for_html(hostile):
    _, path, _ = hostile
    texts = dict(hostile_text.pages(path)) | {label: it._repr_html_() for label, it in hostile_text.shown(path)}
    wrong = {label: Reader(text).wrong for label, text in texts.items()}
    assert not any(wrong.values()), wrong


@pytest.mark.parametrize("box", [Html, HtmlMath])
@pytest.mark.parametrize("name", hostile_text.NAMES)
def test_what_is_no_markup_is_text(box, name):
    first, later = box(name), box()
    later.value = name
    assert first.value == later.value == escape(name)
    later.value = tag("b", name)
    assert later.value == f"<b>{escape(name)}</b>"


@pytest.mark.parametrize("name", hostile_text.NAMES)
def test_markdown_runs_nothing(name):
    assert not [found for found in Reader(from_markdown(f"**So** {name}")).wrong if found != "<a href=#harmful-link>"]


@pytest.mark.parametrize("kind", KINDS)
def test_a_saved_picture_and_its_name_hold_the_text_alone(kind, hostile):
    from dropper import lessons

    _, path, _ = hostile
    panel = lessons.LoadLine(path, ask=False)
    panel.save_box.kind.value = kind
    panel.save_box.save()
    link = panel.save_box.link.value
    assert not Reader(link).wrong and not set("<>\"'/\\:") & set(link.split('download="')[1].split('"')[0])
    if kind == "svg":
        pieces = list(ElementTree.fromstring(panel.picture_file("svg")).iter())
        assert not {piece.tag.rpartition("}")[2] for piece in pieces} & {"script", "img", "image", "a", "foreignObject"}
        assert not [
            key
            for piece in pieces
            for key in piece.attrib
            if key.startswith("on") or (key.endswith("href") and not piece.attrib[key].startswith("#"))
        ]
