"""The room of a picture: axes arranged for a width, scales that stay in a move and say when they change."""

import re

import pytest
from dropper.lessons.kit.frame import nice_scale
from dropper.lessons.kit.room import Room
from for_every import for_every
from panels_to_try import ALL, new_panel

WIDTHS = (200, 280, 360, 460, 520, 600, 780, 1000)


def boxes(panel, width, first):
    panel.take_room(width, first)
    frame = panel.picture.PICTURE._frames[width, first]
    return frame, [one.box for one in frame.axes]


@pytest.mark.parametrize("name", ALL)
def test_axes_keep_inside_the_picture_and_clear_of_each_other_at_every_width(name):
    panel = new_panel(name)

    @for_every([(width, first) for width in WIDTHS for first in (None, 36, 110)])
    def look(width, first):
        frame, placed = boxes(panel, width, first)
        assert frame.size[0] == width
        for at, (left, top, wide, high) in enumerate(placed):
            assert left >= 0 and top >= 0 and wide > 40 and high > 20, placed
            assert left + wide <= width and top + high <= frame.size[1] + 1, placed
            for x, y, w, h in placed[at + 1 :]:
                assert x >= left + wide or left >= x + w or y >= top + high or top >= y + h, placed

    look()


def test_first_axes_are_a_picture_of_their_own_above_the_sliders():
    panel = new_panel("Smoothing")
    panel.take_room(320, 84)
    assert panel.curves.value.count("<svg") == 2 and panel.frame.value.count("<svg") == 2
    assert panel.curves.value.count('role="img"') == 1, "one of the two speaks"
    heights = [int(size) for size in re.findall(r'viewBox="0 \d+ \d+ (\d+)"', panel.frame.value)]
    assert heights[0] < 1900, "84 pixels and what stands above and below"
    panel.take_room(1000, None)
    assert panel.curves.value.count("<svg") == 1


def test_what_is_no_room_is_left_alone():
    panel = new_panel("Smoothing")
    before = panel.curves.value
    for text in ("", "wide", "12 0", "99999 0", "320", "320 84 1"):
        panel.room_note.value = text
        assert panel.curves.value == before, text


def test_a_saved_picture_is_the_wide_one_whatever_the_room():
    """The same file but for its date."""
    panel = new_panel("Smoothing")

    def shapes():
        return re.findall(r' d="[^"]+"', panel.picture_file("svg").decode())

    before = shapes()
    panel.take_room(280, 84)
    assert shapes() == before


def test_a_scale_stays_while_it_serves_and_goes_when_it_does_not():
    room = Room()

    def scale(largest):
        with room.keeping_scales():
            return nice_scale(largest, 1e-3)

    assert [scale(value) for value in (9.0, 5.0, 3.4, 3.3, 3.0)] == [10, 10, 10, 4, 4], "left below a third"
    assert scale(4.1) == 5, "left when a curve leaves it"
    room.let_go()
    assert scale(3.0) == 3.2


def test_a_move_that_changes_a_scale_says_so_at_the_axis():
    panel = new_panel("Smoothing")
    assert "other scale" not in panel.curves.value
    bench = new_panel("LoadLine")
    dropper = next(slider for path, slider in bench.sliders.items() if path.endswith("dropper"))
    said = []
    for value in [option[1] for option in dropper.options][dropper.index :]:
        before = re.findall(r">([^<]+)</text>", bench.curves.value)
        dropper.value = value
        after = re.findall(r">([^<]+)</text>", bench.curves.value)
        said.append(("↕ other scale" in after, before != after))
    assert any(sign for sign, _ in said) and not all(sign for sign, _ in said)
    bench.reset()
    assert "other scale" not in bench.curves.value, "back where it was, and no move"
