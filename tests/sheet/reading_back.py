"""Reads a page with Python's own html.parser: its tables, its text, and how it is built."""

from html.parser import HTMLParser


class Page(HTMLParser):
    """Tables by caption (rows of cells), the text that is shown, and start tags with the names of their attributes."""

    def __init__(self, html):
        super().__init__(convert_charrefs=True)
        self.tables, self.built, self.open = {}, [], []
        self._shown, self._rows, self._caption = [], None, ""
        self.feed(html)
        self.close()

    @property
    def text(self):
        return " ".join("".join(self._shown).split())

    def handle_starttag(self, tag, attrs):
        self.built.append((tag, tuple(name for name, _ in attrs)))
        if tag not in ("meta", "br", "rect", "path", "line", "circle", "ellipse", "polyline", "polygon"):
            self.open.append(tag)
        if tag == "table":
            self._rows, self._caption = [], ""
        elif tag == "tr":
            self._rows.append([])
        elif tag in ("th", "td"):
            self._rows[-1].append("")
        elif tag == "br":
            self.handle_data(" ")

    def handle_startendtag(self, tag, attrs):
        self.built.append((tag, tuple(name for name, _ in attrs)))

    def handle_endtag(self, tag):
        while self.open and self.open.pop() != tag:
            pass
        if tag == "table":
            self.tables[self._caption] = self._rows

    def handle_data(self, data):
        if {"template", "style", "title", "svg"} & set(self.open):
            return
        self._shown.append(data)
        if "caption" in self.open:
            self._caption += data
        elif self._rows is not None and self.open and {"th", "td"} & set(self.open):
            self._rows[-1][-1] += data
