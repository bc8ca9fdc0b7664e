"""Colours of the pictures against the ground they stand on: readable in light and in dark."""

import subprocess
import sys

import pytest
from dropper.results import style

# WCAG 2.2, 1.4.3: 4.5:1 for text; 1.4.11: 3:1 for what a picture is made of.
TYPE, LINE = 4.5, 3.0
GROUNDS = {"light": "#ffffff", "dark": "#111111"}  # JupyterLab's --jp-layout-color0 in its two themes


def luminance(colour):
    """Relative luminance, WCAG 2.2, from the sRGB colour's hexadecimal digits."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    """The contrast ratio of two colours, WCAG 2.2."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_measure_itself():
    """Black on white is 21:1 by definition; #767676 is the lightest grey of 4.5:1 on white (WebAIM's figure)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")


@pytest.mark.parametrize("theme", GROUNDS)
def test_every_colour_can_be_read_as_type_on_both_grounds(theme):
    shades = {
        name: paper if theme == "light" else dark
        for paper, (name, dark) in style.SHADES.items()
        if name not in ("paper", "grid")
    }
    faint = {name: round(contrast(colour, GROUNDS[theme]), 2) for name, colour in shades.items()}
    assert not {name: ratio for name, ratio in faint.items() if ratio < TYPE}


def test_every_look_has_a_shade_for_the_dark_page():
    assert not [key for key, look in style.LOOKS.items() if look.colour not in style.SHADES]


def test_a_drawn_circuit_loads_no_plotting_package():
    code = (
        "import sys; from dropper import Lamp; from dropper.circuit.schematic import draw;"
        " draw(Lamp.from_toml('notebooks/lamps/stair_marker.toml'));"
        " print('matplotlib' in sys.modules, 'schemdraw.backends.mpl' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "False"], done.stdout
