"""A design's parts, what to mind, and designs side by side, as HTML."""

from html import escape

from ..design import compare


def whole(made):
    """The parts, advice and warnings of a design.

    Parameters
    ----------
    made : Design
    """
    heads = [head or "sign" for head in made.header]
    told = "".join(f"<li>{escape(each)}</li>" for each in (*made.warnings, *made.advice, *made.ratings.beyond))
    return _table("The parts, and what each has to stand", heads, made.rows()) + (
        f'<div class="dropper-words"><p>{escape(made.kept.words)}</p><ul class="dropper-parts">{told}</ul></div>'
    )


def beside(designs):
    """Designs that were kept, side by side; nothing where there is none.

    Parameters
    ----------
    designs : sequence of Design
    """
    if not designs:
        return ""
    numbered = [made.named(f"{place}. {made.brief.name}"[:80]) for place, made in enumerate(designs, start=1)]
    header, rows = compare(numbered)
    return _table("Kept, side by side; changes against the first", ["quantity", *header[1:]], rows)


def _table(caption, heads, rows):
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    body = "".join(
        f'<tr><th scope="row">{escape(first)}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in rest)}</tr>'
        for first, *rest in rows
    )
    return (
        f'<table class="dropper-table" style="width:auto"><caption>{escape(caption)}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    )
