"""Glow: a small lamp on a panel whose light follows the string's current, slowed until its flicker can be seen."""

import math
import time
from html import escape

import numpy as np
from ipywidgets import HBox

from ...circuit.html import Markup
from ...results.light import Light
from .markup import Html
from .sliders import button

SLOWED = 50
MOST_FLASHES = 2.7  # a second, well below the three of WCAG 2.2, 2.3.1
_DISCS = 8
_GAMMA = 1 / 2.2  # what is given to a screen goes with this power of its light
_HALO_FULL = 2  # times full light, up to where the halo still grows
_GLASS = "M48 6c-16 0-27 11-27 26 0 9 4 15 9 21 3 4 5 8 5 12h26c0-4 2-8 5-12 5-6 9-12 9-21 0-15-11-26-27-26z"
_BASE = '<path class="base" d="M36 67h24v5H36zM37 74h22v5H37zM42 81h12v3H42z"/>'
_FILAMENT = "M40 64V46l4-12 4 12 4-12 4 12V64"
# What is seen of a filament: its colour, and how much of the glass is lit.
_GLOWS = {
    "dark": ("#8d959c", 0.0),
    "a dull red": ("#c2452d", 0.12),
    "red": ("#f0502c", 0.3),
    "orange": ("#ff8a2a", 0.55),
    "yellow": ("#ffc94d", 0.8),
    "bright": ("#fff6dc", 1.0),
}


class GlowBox(HBox):
    """A drawn lamp, and a button that holds its light still.

    Attributes
    ----------
    lamp : Html
    hold : widgets.Button
    """

    def __init__(self):
        self.lamp, self._drawn, self._held = Html(), None, False
        self.hold = button("Pause", "Holds the drawn lamp's light still, at its mean", self.turn)
        self.hold.add_class("dropper-hold")
        super().__init__([self.lamp, self.hold])
        self.add_class("dropper-glow-box")

    def turn(self) -> None:
        """Hold the light still, or let it flicker again."""
        self._held = not self._held
        (self.lamp.add_class if self._held else self.lamp.remove_class)("dropper-held")
        self.hold.description = "Go on" if self._held else "Pause"

    def show(self, light: Light) -> None:
        """Show a light; one that looks as before goes on as it is."""
        drawn = _look(light)
        if drawn == self._drawn:
            return
        self._drawn = drawn
        self.hold.disabled = light.steady
        self.hold.layout.display = "none" if light.filament else ""
        self.lamp.value = _html(light, f"dropper-wave-{id(self):x}", *drawn)


def slowed(light: Light) -> float:
    """How many times a light is slowed: 50 times, or more, where it would flash too often."""
    return max(SLOWED, math.ceil(light.flashes / light.period / MOST_FLASHES))


def _look(light):
    """How much glass and halo show at the most light, the wave from 0 to 1 of that, its mean, its period, its words."""
    most = float(light.shares.max())
    wave = (light.shares / most) ** _GAMMA if most else light.shares
    glass, halo = min(most, 1.0) ** _GAMMA, min(most / _HALO_FULL, 1.0) ** _GAMMA
    steps = tuple(np.round(wave, 2).tolist()) if not light.steady else ()
    mean = (light.mean / most) ** _GAMMA if most else 0.0
    return round(glass, 2), round(halo, 2), steps, round(mean, 2), light.period * slowed(light), _tip(light)


def _tip(light):
    return light.words if light.steady else f"The light, {slowed(light)} times slowed. {light.words}"


def _html(light, name, glass, halo, steps, mean, cycle, tip):
    look = f"--glass:{glass};--halo:{halo};--mean:{mean}"
    paint, css, below = "#fff0c4", "dropper-glow", ""
    inner = ""
    if light.filament:
        colour, lit = _GLOWS[light.filament]
        look, paint = f"--glass:{0.55 * lit:.2f};--halo:{lit};--mean:1;--shine:{colour}", colour
        inner = f'<path class="filament" d="{_FILAMENT}" stroke="{colour}"/>'
    if steps:
        frames = "".join([f"{100 * at / (len(steps) - 1):.3g}%{{opacity:{step}}}" for at, step in enumerate(steps)])
        below = f"<style>@keyframes {name}{{{frames}}}</style><small>{slowed(light)} × slowed</small><span>"
        places = np.linspace(0, len(steps) - 1, _DISCS, endpoint=False).astype(int)
        below += "".join([f'<i style="opacity:{glass * steps[place]:.2f}"></i>' for place in places]) + "</span>"
        look += f";--wave:{name};--cycle:{cycle:.3f}s;--since:-{time.time() % cycle:.3f}s"
        css += " live"
    return Markup(
        f'<div class="{css}" aria-hidden="true" title="{escape(tip, quote=True)}" style="{look}">'
        f'<svg viewBox="0 0 96 88"><path class="glass" d="{_GLASS}"/>{_BASE}</svg>'
        f'<div class="shine"><b></b><svg viewBox="0 0 96 88"><path d="{_GLASS}" fill="{paint}"/></svg></div>'
        f'<svg viewBox="0 0 96 88">{inner}</svg>{below}</div>'
    )


# The lamp hangs in the dark, on a light page too: there its halo is seen. It keeps its colours in forced ones.
STYLE = """
.dropper-actions { display: grid !important; grid-template: "lamp do" auto "lamp hold" 1fr / auto minmax(0, 1fr); }
@container panel (max-width: 300px) {
  .dropper-actions { grid-template: "lamp hold" auto "do do" auto / auto minmax(0, 1fr); } }
.dropper-glow-box:not([style*="display: none"]) { display: contents !important; }
.dropper-glow-box > .widget-html { grid-area: lamp; margin: 2px 8px 2px 2px; }
.dropper-actions > .widget-hbox:not(.dropper-glow-box) { grid-area: do; }
.dropper-actions .dropper-hold { grid-area: hold; justify-self: start; margin-left: 4px; }
.dropper-glow { position: relative; width: 92px; height: 104px; overflow: hidden; border-radius: 8px;
  border: 1px solid var(--dropper-edge); background: #14181c; forced-color-adjust: none; line-height: 1; }
.dropper-glow svg, .dropper-glow .shine { position: absolute; inset: 2px 0 auto 0; width: 100%; height: 84px; }
.dropper-glow .shine svg { inset: 0; opacity: var(--glass); }
.dropper-glow .glass { fill: #343b42; stroke: #a9b1b8; stroke-width: 1.5; }
.dropper-glow .base { fill: #a9b1b8; }
.dropper-glow .filament { fill: none; stroke-width: 2.5; stroke-linejoin: round; }
.dropper-glow b { position: absolute; inset: -14px -6px; opacity: var(--halo);
  background: radial-gradient(circle at 50% 40%, var(--shine, #ffe9a8) 22%, transparent 70%); }
.dropper-glow .shine { opacity: var(--mean); }
.dropper-glow.live .shine { animation: var(--wave) var(--cycle) linear infinite; animation-delay: var(--since); }
.dropper-glow small, .dropper-glow span { position: absolute; left: 0; right: 0; bottom: 4px; text-align: center; }
.dropper-glow small { font-size: 12px; color: #e8e8e8; }
.dropper-glow span { display: none; justify-content: space-evenly; padding: 0 4px; }
.dropper-glow i { width: 9px; height: 9px; border-radius: 50%; background: #fff0c4; outline: 1px solid #a9b1b8; }
.dropper-held .dropper-glow .shine { animation: none; }
.dropper-held .dropper-glow small { display: none; }
.dropper-held .dropper-glow span { display: flex; }
@media (prefers-reduced-motion: reduce) {
  .dropper-glow .shine { animation: none !important; } .dropper-glow small, .dropper-hold { display: none !important; }
  .dropper-glow span { display: flex; } }
"""
