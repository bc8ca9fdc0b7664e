"""A picture that is saved: what the page shows, with its values, in each kind of file."""

import base64
import io
import re
import subprocess
import sys

import numpy as np
import pytest
from dropper import lessons
from dropper.lessons.kit import saved_picture
from PIL import Image
from pypdf import PdfReader

STAIR = "notebooks/lamps/stair_marker.toml"
SIZE = (200, 100)
STARTS = {
    "Designer": ("notebooks/lamps/briefs/door_number.toml",),
    "LedCurve": ("notebooks/lamps/bench_led.csv",),
    "PartCheck": ("474K 275V~ X2", "430 nF"),
    "ResistorOrCapacitor": (),
    "Markings": (),
}
LAMPS = """LoadLine Conduction Smoothing Powers OddMains GhostLight Plugging
    Rush Faults Ageing Tolerances FirstPower Strings Sharing
    Measurement Bench FaultFinding Hunt"""


def new_panel(name):
    if name == "Hunt":
        panel = lessons.Hunt(STAIR, seed=1)
        panel.odds.value = True
        return panel
    if name == "FaultFinding":
        panel = lessons.FaultFinding(STAIR)
        panel.take()
        return panel
    return getattr(lessons, name)(*STARTS.get(name, (STAIR,)), ask=False)


def pixels(content):
    """A PNG as numbers, one row of the picture after the other."""
    return np.asarray(Image.open(io.BytesIO(content)).convert("RGB"), int)


@pytest.mark.parametrize("name", [*LAMPS.split(), *STARTS])
def test_every_panel_saves_its_picture_with_its_words_and_values(name):
    panel = new_panel(name)
    panel.save_box.save()
    link = panel.save_box.link.value
    image = Image.open(io.BytesIO(base64.b64decode(re.search(r'href="data:image/png;base64,([^"]+)"', link)[1])))
    wide, high = panel.picture.PICTURE.size
    assert image.width == 2 * wide and image.height > 2 * high, "sharp, with room for the words"
    assert image.text["Title"] == panel.title() and image.text["Description"] == panel.words
    assert 'download="' in link and ".png" in link
    assert len(image.convert("RGB").getcolors(1 << 20)) > 50, "something is drawn"


@pytest.mark.parametrize(("name", "value"), [("Bench", "330 nF"), ("Strings", "22"), ("Tolerances", "0")])
def test_a_saved_picture_says_the_lamp_and_what_its_sliders_stand_at(name, value):
    panel = new_panel(name)
    text = PdfReader(io.BytesIO(panel.picture_file("pdf"))).pages[0].extract_text().replace("\u00a0", " ")
    assert "stair marker" in text
    for slider in panel.sliders.values():
        assert slider.description in text.replace("\n", " "), slider.description
    assert value in text


def test_kept_curves_are_saved_too_and_a_move_takes_the_link_away():
    panel = new_panel("Bench")
    alone = panel.picture_file("png")
    panel.keep()
    slider = panel.sliders["dropper"]
    panel.save_box.save()
    assert panel.save_box.link.value
    slider.index += 2
    assert panel.save_box.link.value == ""
    assert panel.picture_file("png") != alone
    assert "kept before" in PdfReader(io.BytesIO(panel.picture_file("pdf"))).pages[0].extract_text()


@pytest.mark.parametrize(("kind", "head"), [("png", b"\x89PNG"), ("svg", b"<?xml"), ("pdf", b"%PDF")])
def test_each_kind_of_file_is_what_its_name_says(kind, head):
    panel = new_panel("Smoothing")
    panel.save_box.kind.value = kind
    panel.save_box.save()
    link = panel.save_box.link.value
    content = base64.b64decode(re.search(r"base64,([^\"]+)", link)[1])
    assert content.startswith(head) and f'download="stair_marker_smoothing.{kind}"' in link


def test_shapes_stand_where_svg_puts_them():
    """Points three pixels inside and outside of each shape's edge, worked out by hand from SVG 1.1, chapters 7 to 9."""
    layer = (
        f'<svg viewBox="0 0 {10 * SIZE[0]} {10 * SIZE[1]}" font-size="120">'
        '<polygon points="100,100 400,100 250,400" fill="var(--dropper-blue)"/>'
        '<g transform="translate(500 100)"><rect x="0" y="0" width="300" height="200" fill="#b00020"/></g>'
        '<path d="M1000,100h300v200l-300,0z" fill="#007a5a"/><circle cx="1600" cy="300" r="150" fill="#000000"/>'
        '<path d="M0,-50L100,0L0,50z" transform="translate(300,700) rotate(90)" fill="#8a5a00"/></svg>'
    )
    found = pixels(saved_picture.save([layer], SIZE, "a", "", "b", "png"))
    head = found.shape[0] - 2 * SIZE[1] - 2 * 16
    places = {  # at two pixels a unit of ten
        "#0072b2": [(25, 23), (75, 23), (50, 72)],
        "#b00020": [(103, 23), (157, 23), (157, 57), (103, 57)],
        "#007a5a": [(203, 23), (257, 23), (257, 57), (203, 57)],
        "#000000": [(293, 60), (347, 60), (320, 33), (320, 87)],
        "#8a5a00": [(55, 142), (65, 142), (60, 155)],
        "#ffffff": [
            (17, 20),
            (25, 40),
            (50, 83),
            (97, 40),
            (163, 40),
            (130, 63),
            (263, 40),
            (287, 60),
            (296, 36),
            (60, 137),
            (48, 142),
            (72, 142),
            (60, 163),
            (53, 152),
        ],
    }
    wrong = [
        (place, colour)
        for colour, points in places.items()
        for place in points
        if found[head + place[1], place[0]].tolist() != list(bytes.fromhex(colour[1:]))
    ]
    assert not wrong


@pytest.mark.parametrize(
    ("piece", "what"),
    [
        ("<ellipse/>", "<ellipse>"),
        ('<path d="M0,0A1,1 0 0 1 2,2"/>', "path with A"),
        ('<g transform="skewX(3)"/>', "skewX"),
    ],
)
def test_what_cannot_be_drawn_is_said_and_not_left_out(piece, what):
    with pytest.raises(ValueError, match=re.escape(what)):
        saved_picture.save([f'<svg viewBox="0 0 9 9">{piece}</svg>'], SIZE, "", "", "", "png")
    with pytest.raises(ValueError, match="kind: 'gif' is not known"):
        saved_picture.save([], SIZE, "", "", "", "gif")


def test_a_panel_loads_no_plotting_package_until_a_picture_is_saved():
    code = (
        "import sys; from dropper.lessons import Bench, Conduction;"
        f" panel = Bench('{STAIR}', ask=False); panel.circuit(); panel.keep(); Conduction('{STAIR}').circuit();"
        " panel.sliders['dropper'].index += 1; print('matplotlib' in sys.modules);"
        " panel.save_box.save(); print('matplotlib' in sys.modules, 'matplotlib.pyplot' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "True", "False"], done.stdout
