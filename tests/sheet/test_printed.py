"""A lamp's sheet on paper: one page of A4 or Letter, nothing cut off, type that can be read, no barriers.

The PDF is Chromium's, read with pypdf; barriers by axe-core (WCAG 2 A and AA, best practice).
"""

import pages
import pytest
from pages import NASTY, NOTES

CASES = [f"{name} {paper}" for name, paper in pages.CASES]
LEAST_TYPE = 8.0  # points


def read(path):
    """Pages, all text, and the sizes of type in points of a PDF."""
    pypdf = pytest.importorskip("pypdf")
    leaves = pypdf.PdfReader(path).pages
    sizes, text = set(), []

    def seen(part, matrix, own, font, size):
        if part.strip():
            sizes.add(round(abs(size * own[0] * matrix[0]), 2))

    for leaf in leaves:
        text.append(leaf.extract_text(visitor_text=seen))
    return len(leaves), " ".join(" ".join(text).split()), sizes


@pytest.mark.parametrize("case", CASES)
def test_it_prints_on_one_page_of_its_own_paper_and_of_the_other(printed, case):
    found, (name, paper) = printed[case], case.split()
    for form in ("A4", "Letter"):
        count, _, _ = read(found["folder"] / f"{name}_{paper}_on_{form}.pdf")
        assert count == 1, f"{case} on {form}"
    _, text, sizes = read(found["folder"] / f"{name}_{paper}_on_{paper}.pdf")
    assert min(sizes) >= LEAST_TYPE
    for words in (
        "Parts, and what each must stand",
        "What the meters should show",
        "Plugging in and pulling out",
        "Notes",
    ):
        assert words in text
    if name != "nasty":
        assert NOTES.split()[-1] in text.split("Notes")[-1], "the last of the notes is there"


@pytest.mark.parametrize("case", [case for case in CASES if not case.startswith(("poor", "nasty"))])
def test_it_still_does_with_the_widest_type(printed, case):
    name, paper = case.split()
    count, _, sizes = read(printed[case]["folder"] / f"{name}_{paper}_wide.pdf")
    assert count == 1 and min(sizes) >= LEAST_TYPE


@pytest.mark.parametrize("case", CASES)
def test_nothing_is_cut_off_and_nothing_lies_over_another(printed, case):
    assert printed[case]["cut"] == [] and printed[case]["over"] == []


@pytest.mark.parametrize("case", CASES)
def test_it_keeps_nobody_out_and_asks_nothing_of_anybody(printed, case):
    found = printed[case]
    assert found.get("barriers", []) == []
    assert found["asked"] == [] and found["said"] == []


def test_what_was_typed_stays_text_in_a_browser(printed):
    found = printed["nasty A4"]
    assert found["name"] == " ".join(NASTY.split())
    assert found["foreign"] == 0
    assert "got in" in found["title"] and found["title"] != "got in", "the name itself, not what it would have done"
