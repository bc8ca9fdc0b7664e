"""The lamp of a sheet comes back equal, or a person is told why not."""

import re
import time
from dataclasses import replace

import pytest
from draws import examples
from dropper import sheet
from dropper.sheet.attachment import LARGEST, embed
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pages import DESIGNS, LAMPS, NASTY, designed, lamp, made

UNPRINTED = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp", "Zs")
PRINTABLE = st.text(st.characters(exclude_categories=UNPRINTED, include_characters=" "), max_size=80)


@pytest.mark.parametrize("name", LAMPS)
def test_a_sheet_opens_as_the_lamp_it_was_made_from(name, tmp_path):
    path = made(name).write(tmp_path / "a sheet.html")
    for given_as in (path, str(path), path.read_text(encoding="utf-8"), path.read_bytes()):
        assert sheet.open_sheet(given_as) == lamp(name)


@settings(max_examples=examples(60))
@given(name=PRINTABLE, note=PRINTABLE)
@example(name=NASTY, note="</template>")
@example(name="&lt;b&gt;", note="&amp;amp;")
@example(name='"""', note="'''")
def test_whatever_a_lamp_is_called_it_comes_back(name, note):
    own = lamp("stair_marker")
    own = replace(own, name=name, readings=replace(own.readings, note=note))
    page = sheet.document(name, "<h1>x</h1>", data=embed(own))
    assert sheet.open_sheet(page) == own
    assert page.count("<template") == page.count("</template>") == 1


@pytest.mark.parametrize("name", DESIGNS)
def test_a_designs_sheet_opens_as_the_brief_too(name, tmp_path):
    path = made(name).write(tmp_path / "a sheet.html")
    assert sheet.open_sheet(path) == designed(name).lamp and sheet.open_brief(path) == designed(name).brief
    assert sheet.open_brief(made("stair_marker").html) is None
    page = path.read_text(encoding="utf-8")
    with pytest.raises(sheet.SheetError, match="its brief was changed by hand"):
        sheet.open_brief(page.replace("current = ", "current =  "))
    with pytest.raises(sheet.SheetError, match="is cut off, and its brief with it"):
        sheet.open_brief(page[: page.index('<template id="dropper-brief"') + 60])


@settings(max_examples=examples(40))
@given(name=PRINTABLE)
@example(name=NASTY)
@example(name="</template><template id='dropper-brief'>")
def test_whatever_a_designed_lamp_is_called_its_brief_comes_back(name):
    brief = designed("reading_nook").brief.but(name=name)
    page = sheet.document(name, "<h1>x</h1>", data=embed(lamp("stair_marker"), brief))
    assert sheet.open_brief(page) == brief and sheet.open_sheet(page) == lamp("stair_marker")


def test_line_ends_of_another_system_do_not_matter():
    page = made("stair_marker").html
    assert sheet.open_sheet(page.replace("\n", "\r\n")) == lamp("stair_marker")
    assert sheet.open_sheet("\ufeff" + page) == lamp("stair_marker")


@settings(max_examples=examples(25))
@given(st.floats(0, 0.9999))
def test_a_page_cut_off_anywhere_says_so_or_still_holds_its_lamp(share):
    page = made("stair_marker").html
    try:
        assert sheet.open_sheet(page[: int(share * len(page))] + "\n") == lamp("stair_marker")
    except sheet.SheetError as error:
        assert re.search("cut off|holds no lamp file", str(error))


def test_what_is_no_sheet_is_told_from_what_is_cut_off(tmp_path):
    page = made("stair_marker").html
    whole = re.sub("<template.*</template>", "", page, flags=re.S)
    with pytest.raises(sheet.SheetError, match="holds no lamp file"):
        sheet.open_sheet(whole)
    with pytest.raises(sheet.SheetError, match="the page: is cut off"):
        sheet.open_sheet(page[:-400])
    (tmp_path / "half.html").write_text(page[:5000], encoding="utf-8")
    with pytest.raises(sheet.SheetError, match=r"half\.html: is cut off"):
        sheet.open_sheet(tmp_path / "half.html")


def test_a_lamp_file_that_was_changed_by_hand_is_refused():
    page = made("stair_marker").html
    changed = page.replace("dropper = &quot;330 nF&quot;", "dropper = &quot;470 nF&quot;")
    assert changed != page
    with pytest.raises(sheet.SheetError, match="changed by hand, so the figures shown are not that lamp's"):
        sheet.open_sheet(changed)
    with pytest.raises(sheet.SheetError, match="changed by hand"):
        sheet.open_sheet(re.sub('data-sum="[0-9a-f]+"', "data-sum", page))


def test_a_lamp_file_that_no_lamp_can_be_made_from_is_told_with_its_line():
    import hashlib
    from html import escape

    text = 'name = "x"\nwatts = 3\n'
    total = hashlib.sha256(text.encode()).hexdigest()
    page = f'<!DOCTYPE html><template id="dropper-lamp-file" data-sum="{total}">{escape(text)}</template></html>'
    with pytest.raises(sheet.SheetError, match="line 2: unknown key 'watts'.*another version"):
        sheet.open_sheet(page)


def test_files_that_cannot_be_sheets_are_told_by_name(tmp_path):
    huge, binary = tmp_path / "huge.html", tmp_path / "binary.html"
    huge.write_bytes(b"<" * (LARGEST + 10))
    binary.write_bytes(b"\xff\xfe\x00\x01<html>")
    for path, why in (
        (huge, "huge.html: is longer than"),
        (binary, "binary.html: is not UTF-8 text"),
        (tmp_path / "none.html", "none.html: cannot be opened"),
        (tmp_path, "cannot be opened"),
        ("a\0b", "cannot be opened"),
        ("<" * (LARGEST + 1), "the page: is longer than"),
        (b"<" * (LARGEST + 1), "the page: is longer than"),
    ):
        with pytest.raises(sheet.SheetError, match=why):
            sheet.open_sheet(path)


@pytest.mark.parametrize("piece", ["<!--", "<a ", "</", "<a b='", '<template id="dropper-lamp-file" '])
def test_a_page_of_unclosed_pieces_is_told_at_once(piece):
    begin = time.perf_counter()
    with pytest.raises(sheet.SheetError):
        sheet.open_sheet("<!DOCTYPE html>" + piece * (LARGEST // len(piece) - 20))
    assert time.perf_counter() - begin < 2
    with pytest.raises(TypeError, match="page: None is no page"):
        sheet.open_sheet(None)
