"""The bench picture: one mains period of a lamp, its heat by part, and both in words."""

import itertools
from html import escape

from ..parts import BY_KEY
from ..values import show
from .frame import Panel, draw_frame, nice_scale
from .style import FONT, GHOST, HEAT_COLOUR, INK, LOOKS

SIZE = (780, 560)
PANELS = (
    Panel("voltage, V", signed=True, rows=4),
    Panel("line current, mA", signed=True, rows=3),
    Panel("string current, mA", signed=False, rows=3),
)
CURVES = (("mains_voltage", 0), ("bus_voltage", 0), ("line_current", 1), ("string_current", 2))
_LEAST = (10.0, 1e-3, 1e-3)


def frame():
    """The axes, drawn once."""
    return draw_frame(PANELS, SIZE, "time, ms (one period of the mains)")


def scales(*results):
    """A scale for each panel that holds all the results."""
    tops = [0.0, 0.0, 0.0]
    for result in results:
        for name, panel in CURVES:
            curve = getattr(result, name)
            tops[panel] = max(tops[panel], curve.max(), -curve.min())
    return tuple(nice_scale(top, least) for top, least in zip(tops, _LEAST, strict=True))


def overlay(result, scale, sentence):
    """The curves of one result and the numbers on the axes, as SVG to lie over the frame.

    Parameters
    ----------
    result : SteadyState
        Of one lamp, with waveforms.
    scale : tuple
        From `scales`.
    sentence : str
        The picture in words: its text alternative.
    """
    drawn = frame()
    lines = [
        _polyline(drawn, panel, _thinned(getattr(result, name)), scale[panel], LOOKS[name]) for name, panel in CURVES
    ]
    label = escape(sentence, quote=True)
    return (
        f'<svg class="dropper-curves" role="img" aria-label="{label}" viewBox="{drawn.view}"'
        f' style="display:block;width:100%;height:auto">{"".join(lines)}'
        f"{_numbers(drawn, result, scale)}{_names(drawn, result, scale)}</svg>"
    )


def ghost(result, scale):
    """The kept result's curves, thin and grey, for the layer below."""
    drawn = frame()
    lines = [
        f'<polyline points="{drawn.points(panel, _thinned(getattr(result, name)), scale[panel])}" fill="none"'
        f' stroke="{GHOST}" stroke-width="14" stroke-dasharray="40 30"/>'
        for name, panel in CURVES
    ]
    return (
        f'<svg aria-hidden="true" viewBox="{drawn.view}" style="display:block;width:100%;height:auto">'
        f"{''.join(lines)}</svg>"
    )


def backdrop():
    """The frame as an HTML image that says nothing: the curves above it carry the words."""
    return f'<img alt="" src="{frame().image}" style="display:block;width:100%;height:auto;border-radius:6px">'


def heat_bars(heat, names=BY_KEY):
    """Watts by part as bars with their numbers, hottest first; a list to a screen reader."""
    shown = sorted(((watts, key) for key, watts in heat.items() if watts > 0), reverse=True)
    if not shown:
        return '<div class="dropper-heat">Nothing warms: no current flows.</div>'
    most, total = shown[0][0], sum(watts for watts, _ in shown)
    rows = []
    for watts, key in shown:
        share = f"{100 * watts / total:.0f} %"
        rows.append(
            f'<li><span class="name">{escape(names[key].name)}</span>'
            f'<span class="track" aria-hidden="true"><span style="width:{100 * watts / most:.1f}%;'
            f'background-color:{HEAT_COLOUR}"></span></span>'
            f'<span class="watts">{show(watts, "W")}, {share}</span></li>'
        )
    return (
        f'<div class="dropper-words"><b>Heat by part, {show(total, "W")} in all</b></div>'
        f'<ul class="dropper-heat" aria-label="heat by part">{"".join(rows)}</ul>'
    )


def sentence(lamp, result):
    """The picture in words."""
    if result.dark:
        needed = lamp.string.voltage_at(1e-4 * lamp.string.led.at_current)
        return (
            f"This lamp stays dark: its string wants about {show(needed, 'V')} before it conducts, and the"
            f" mains reaches {show(result.mains_voltage.max(), 'V')} at its peak."
        )
    share = 100 * result.conduction_fraction
    hottest = max((part for part in result.heat if part != "leds"), key=result.heat.get)
    words = (
        f"From {show(lamp.mains.voltage, 'V')} at {show(lamp.mains.frequency, 'Hz')} the lamp draws"
        f" {show(result.line_current_rms, 'A')} rms and {show(result.real_power, 'W')} at a power factor of"
        f" {result.power_factor:.2f}. The bridge conducts for {share:.0f} % of the time. The LEDs get"
        f" {show(result.string_current_mean, 'A')} on average, swinging from"
        f" {show(result.string_current_min, 'A')} to {show(result.string_current_max, 'A')}"
        f" ({result.percent_flicker:.0f} % flicker), at a bus voltage of"
        f" {show(result.bus_voltage_mean, 'V')}."
    )
    if result.heat[hottest] > 0:
        words += (
            f" Besides the LEDs, the {BY_KEY[hottest].name} is the warmest part,"
            f" {show(result.heat[hottest], 'W')}."
        )
    if not result.settled:
        words += " It has not settled into a repeating cycle: read these figures with care."
    return words


def _thinned(values):
    """Means of neighbours, at most as many as the picture has room for: less to send and to parse."""
    together = max(1, len(values) // 256)
    return values[: len(values) // together * together].reshape(-1, together).mean(axis=1)


def _polyline(drawn, panel, values, scale, look):
    dashes = f' stroke-dasharray="{look.dashes}"' if look.dashes else ""
    return (
        f'<polyline points="{drawn.points(panel, values, scale)}" fill="none" stroke="{look.colour}"'
        f' stroke-width="{look.width}" stroke-linejoin="round"{dashes}/>'
    )


def _text(x, y, words, anchor="end", colour=INK, size=125, weight="normal"):
    return (
        f'<text x="{x:.0f}" y="{y:.0f}" text-anchor="{anchor}" font-size="{size}" font-weight="{weight}"'
        f' font-family="{FONT}" fill="{colour}">{words}</text>'
    )


def _numbers(drawn, result, scale):
    written = []
    for number, (panel, factor) in enumerate(zip(PANELS, (1, 1e3, 1e3), strict=True)):
        left = drawn.boxes[number][0]
        for mark in panel.marks:
            value = f"{mark * scale[number] * factor:.4g}".replace("-", "−")
            written.append(_text(left - 60, drawn.level(number, mark) + 45, value))
    left, bottom, width, _ = drawn.boxes[-1]
    period = 1e3 * (result.time[-1] + result.time[0])
    for part in range(5):
        written.append(_text(left + width * part / 4, bottom + 170, f"{period * part / 4:.4g}", "middle"))
    return "".join(written)


def _names(drawn, result, scale):
    """Each curve's name at its right-hand end, pushed apart where they would meet."""
    written = []
    for number in range(len(PANELS)):
        left, bottom, width, height = drawn.boxes[number]
        places = []
        for name, panel in CURVES:
            if panel == number:
                end = getattr(result, name)[-8:].mean() / scale[number]
                places.append([min(max(drawn.level(number, end), bottom - height + 120), bottom - 100), name])
        places.sort()
        for above, below in itertools.pairwise(places):
            below[0] = max(below[0], above[0] + 290)
        for y, name in places:
            look = LOOKS[name]
            first, second = look.name.split()
            x = left + width + 60
            written.append(_text(x, y, first, "start", look.colour, 125, "bold"))
            written.append(_text(x, y + 130, second, "start", look.colour, 125, "bold"))
    return "".join(written)
