"""Style sheet: how panels look on the page, in light and in dark."""

from ...circuit.html import Markup
from ...results.style import style_sheet

_RULES = """
.dropper-words, .dropper-table, .dropper-heat {
  color: var(--jp-content-font-color1, #1a1a1a); font-size: 14px; line-height: 1.45; }
.dropper-words.said { min-height: 5.6em; border-left: 4px solid var(--dropper-blue); padding-left: 10px; }
.dropper-words.wrong { border: 2px solid var(--dropper-orange); border-radius: 6px; padding: 6px 10px; }
.dropper-words.wrong::before { content: "✗ "; font-weight: bold; }
.dropper-words.question { font-size: 16px; font-weight: 600; }
.dropper-table { border-collapse: collapse; width: 402px; max-width: 100%; font-size: 13px; }
.dropper-read .widget-html-content { max-width: 100%; min-width: 0; }
.dropper-table caption { text-align: left; font-weight: 600; padding: 6px 0 2px; }
.dropper-table th, .dropper-table td { padding: 2px 4px; white-space: nowrap; text-align: right; font-weight: normal;
  border-bottom: 1px solid var(--jp-border-color2, #ccc); font-variant-numeric: tabular-nums; }
.dropper-table th:first-child { text-align: left; white-space: normal; }
.dropper-table thead th { font-weight: 600; }
.dropper-table td.now { font-weight: 600; }
.dropper-heat { list-style: none; margin: 0; padding: 0; width: 640px; }
.dropper-heat li { display: grid; grid-template-columns: 150px 1fr 130px; align-items: center; gap: 8px;
  padding: 1px 0; }
.dropper-heat .track { background: var(--jp-layout-color2, #eee); height: 14px; }
.dropper-heat .track span { display: block; height: 14px;
  background-image: repeating-linear-gradient(45deg, transparent 0 5px, rgba(0,0,0,.35) 5px 7px); }
.dropper-heat .watts { text-align: right; font-variant-numeric: tabular-nums; }
.dropper-save a { color: var(--dropper-blue); }
.dropper-parts { margin: 0; padding-left: 20px; }
@media (max-width: 1240px) { /* a projector's 1024 pixels: picture, sliders beside readings, words */
  .dropper-columns { flex-flow: row wrap; }
  .dropper-columns > .widget-vbox { display: contents; }
  .dropper-columns > .widget-vbox > * { order: 4; flex: 0 0 auto; max-width: 100%; }
  .dropper-columns > .widget-vbox > .dropper-stack { order: 1; width: 580px !important; margin-right: 240px; }
  .dropper-columns > .widget-vbox > .dropper-by-hand { order: 2; width: 416px; }
  .dropper-columns > .widget-vbox > .dropper-read { order: 3; }
  .dropper-columns > .widget-vbox > .widget-html:not(.dropper-read) { flex-basis: calc(100% - 4px); }
  .dropper-panel > .widget-vbox .widget-hbox, .dropper-hunt .widget-hbox, .dropper-finding .widget-hbox {
    flex-wrap: wrap; } }
.jp-OutputArea-output pre { word-break: normal !important; overflow-wrap: anywhere; }
.widget-htmlmath-content mjx-container { max-width: 100%; overflow-x: auto; overflow-y: hidden; }
.jupyter-widgets .noUi-handle:focus-visible, .jupyter-widgets button:focus-visible,
button.jupyter-widgets:focus-visible, .jupyter-widgets select:focus-visible, .jupyter-widgets input:focus-visible {
  outline: 3px solid var(--dropper-blue) !important; outline-offset: 2px !important; }
"""
STYLE = Markup(f"<style>\n{style_sheet()}{_RULES}</style>")
