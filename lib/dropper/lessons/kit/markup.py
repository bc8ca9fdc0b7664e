"""Markup: the widgets that show HTML; what is not markup by its type is text to them, and they escape it."""

import ipywidgets as widgets
from traitlets import validate

from ...circuit.html import joined


class Html(widgets.HTML):
    """A piece of the page.

    A plain string given to it is shown as it was typed, whatever it holds; only `Markup`, which `circuit.html` makes,
    is taken for HTML.

    >>> from dropper.circuit.html import tag
    >>> Html("<b>").value, Html(tag("b", "<")).value
    (Markup('&lt;b&gt;'), Markup('<b>&lt;</b>'))
    """

    @validate("value")
    def _as_markup(self, proposal):
        return joined(proposal["value"])


class HtmlMath(widgets.HTMLMath):
    """The same with formulas in dollar signs, which the page sets."""

    @validate("value")
    def _as_markup(self, proposal):
        return joined(proposal["value"])
