"""Why field: the hidden field in which the page's script writes whose derivation a learner has opened (`why.js`)."""

from collections.abc import Callable

import ipywidgets as widgets


def why_field(take: Callable[[str], None]) -> widgets.Text:
    """A hidden field; the key of a reading that is written there goes to `take`, "" where it is closed again.

    The page puts it back with the other fields, so that what was open is open again.
    """
    field = widgets.Text(description="how this number comes about", continuous_update=False)
    field.add_class("dropper-why-field")
    field.observe(lambda change: take(change.new), "value")
    return field
