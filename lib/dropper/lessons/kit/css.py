"""Style sheet: how panels look on the page, in light and in dark, at every width that they are given."""

from ...circuit.html import Markup
from ...results.style import style_sheet
from . import glow
from .slider_style import SLIDERS

TWO_COLUMNS = 720  # pixels of a panel's own width from which sliders and picture stand beside each other

_WORDS = """
.dropper-words, .dropper-table, .dropper-heat {
  color: var(--jp-content-font-color1, #1a1a1a); font-size: 14px; line-height: 1.45; }
.dropper-words.said { border-left: 4px solid var(--dropper-blue); padding-left: 10px; }
.dropper-words.wrong { border: 2px solid var(--dropper-orange); border-radius: 6px; padding: 6px 10px; }
.dropper-words.wrong::before { content: "✗ "; font-weight: bold; }
.dropper-words.question { font-size: 16px; font-weight: 600; }
.dropper-table { border-collapse: collapse; width: 100%; max-width: 560px; font-size: 14px; }
.dropper-read .widget-html-content { max-width: 100%; min-width: 0; }
.dropper-table caption { text-align: left; font-weight: 600; padding: 6px 0 2px; }
.dropper-table th, .dropper-table td { padding: 2px 4px; white-space: nowrap; text-align: right; font-weight: normal;
  border-bottom: 1px solid var(--jp-border-color2, #ccc); font-variant-numeric: tabular-nums; }
.dropper-table th:first-child { text-align: left; white-space: normal; }
.dropper-table thead th { font-weight: 600; white-space: normal; }
.dropper-table td.now { font-weight: 600; }
.dropper-wide { overflow-x: auto !important; }
.dropper-wide .dropper-table { max-width: none; }
.dropper-heat { list-style: none; margin: 0; padding: 0; max-width: 640px; }
.dropper-heat li { display: grid; align-items: center; gap: 8px;
  grid-template-columns: minmax(80px, 150px) minmax(20px, 1fr) min(150px, 42cqw) auto; padding: 1px 0; }
.dropper-heat .track { background: var(--jp-layout-color2, #eee); height: 14px; forced-color-adjust: none; }
.dropper-heat .track span { display: block; height: 14px;
  background-image: repeating-linear-gradient(45deg, transparent 0 5px, rgba(0,0,0,.35) 5px 7px); }
.dropper-heat .watts { text-align: right; font-variant-numeric: tabular-nums; }
.dropper-save a { color: var(--dropper-blue); }
.dropper-step > .widget-checkbox { flex: 0 0 190px; }
.dropper-step > .widget-html { flex: 1 1 300px; min-width: 0; max-width: 880px; }
.dropper-beside { flex: 1 1 300px; max-width: 560px; margin-left: 8px !important; }
.dropper-parts { margin: 0; padding-left: 20px; }
.dropper-form { display: grid !important; gap: 4px 20px; grid-template-columns: minmax(0, 1fr); }
.dropper-form .dropper-board-row > :first-child { flex: 1 1 330px; max-width: 420px; }
.dropper-form .dropper-board-row > .widget-html { flex: 1 1 240px; min-width: 0; }
.dropper-board-picture { max-width: min(100%, 640px); height: auto; }
.dropper-log { overflow-x: auto; }
.dropper-log caption { text-align: left; font-weight: 600; }
.dropper-log th[scope="row"] { white-space: nowrap; }
.dropper-form .widget-label { min-width: 136px !important; }
.dropper-log td, .dropper-log th { text-align: left; padding: 2px 12px 2px 0; vertical-align: top;
  font-weight: normal; }
.dropper-even .widget-label { min-width: 168px !important; }
.jp-OutputArea-output pre { word-break: normal !important; overflow-wrap: anywhere; }
.widget-htmlmath-content mjx-container { max-width: 100%; overflow-x: auto; overflow-y: hidden; }
"""

_READINGS = """
.dropper-spoken { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
.dropper-why { min-width: 24px; height: 24px; padding: 0; border: 1px solid var(--jp-border-color0, #767676);
  border-radius: 12px; background: transparent; color: inherit; font: inherit; font-weight: 600; cursor: pointer; }
.dropper-why[aria-expanded="true"] { background: var(--dropper-blue); color: var(--dropper-paper); }
.dropper-fit .excess { display: block; font-weight: 600; color: var(--dropper-orange); }
.dropper-table tr.below td { text-align: left; white-space: normal; padding: 4px 0 10px; }
.dropper-table tr.below td > div { width: 0; min-width: 100%; overflow-x: auto; }
.dropper-verdict, .dropper-one-tap { align-items: center; gap: 4px 8px; }
.dropper-verdict > .widget-html { flex: 1 1 260px; border-left: 4px solid var(--dropper-blue); padding-left: 10px; }
.dropper-verdict > button { font-size: 12px !important; }
.dropper-verdict .question { font-size: 14px; }
.dropper-goals ul { list-style: none; margin: 0; padding: 0; }
.dropper-goals li { padding: 2px 0 2px 22px; text-indent: -22px; }
.dropper-goals .mark { display: inline-block; width: 22px; text-indent: 0; }
.dropper-goals .reached .shows { font-weight: 600; }
"""

# Whatever holds a panel lets its picture stick to the top of the page, and its focus rings be whole. The prompt and
# what lies over it would take 64 pixels of a narrow page.
_PLACE = """
.jp-OutputArea-output:has(.dropper-fit), .jp-OutputArea-child:has(.dropper-fit), .jp-OutputArea:has(.dropper-fit),
.jp-Cell-outputWrapper:has(.dropper-fit), .jp-Cell:has(.dropper-fit), .jupyter-widgets:has(.dropper-fit),
.jp-OutputArea-output .widget-box, .jp-OutputArea-output .widget-html, .jp-OutputArea-output .widget-html-content,
.jp-OutputArea-output .widget-htmlmath, .jp-OutputArea-output .widget-radio { overflow: visible; }
.jp-OutputArea-child:has(> .jp-OutputArea-output .dropper-fit) > .jp-OutputPrompt,
.jp-OutputArea:has(.dropper-fit) .jp-OutputArea-promptOverlay { display: none; }
.jp-OutputArea-output .jupyter-widgets { max-width: 100%; min-width: 0; box-sizing: border-box; }
.jp-OutputArea-output .widget-hbox { flex-wrap: wrap; align-items: start; }
.jp-OutputArea-output .widget-html-content, .jp-OutputArea-output .widget-htmlmath-content { min-width: 0;
  max-width: 100%; }
.jp-OutputArea-output .widget-html, .jp-OutputArea-output .widget-htmlmath { height: auto; }
.dropper-fit { container: panel / inline-size; max-width: 1500px !important; padding: 2px 4px 2px 8px; }
.dropper-fit, .dropper-fit .widget-label, .dropper-fit .widget-readout, .dropper-fit input, .dropper-fit select,
.dropper-fit button, .dropper-fit label { font-size: 14px; }
.jp-Placeholder, .jp-Placeholder-content, .jp-Placeholder-contentContainer { min-width: 0; max-width: 100%; }
.jp-PlaceholderText { min-width: 0; overflow: hidden; text-overflow: ellipsis; }
.dropper-room, .dropper-why-field { display: none !important; }
.dropper-stack { display: grid !important; max-width: 1100px; background: var(--dropper-paper); }
.dropper-stack > * { grid-area: 1 / 1; margin: 0 !important; width: auto !important; }
.dropper-frame { background: var(--dropper-paper); }
"""

# Sliders and readings at the left, picture and words at the right; where that has no room the picture comes first and
# its first axes stay in sight.
_COLUMNS = f"""
.dropper-columns {{ display: grid !important; gap: 4px 20px; grid-template-columns: minmax(0, 1fr);
  --dropper-apart: 0; }}
.dropper-columns, .dropper-left, .dropper-right {{ margin: 0 !important; width: auto !important; }}
.dropper-fit .noUi-handle, .dropper-fit button, .dropper-fit select, .dropper-fit input {{
  scroll-margin: 24px 0 24px; }}
@container panel (min-width: {TWO_COLUMNS}px) {{
  .dropper-columns {{ grid-template-columns: minmax(min-content, 4fr) minmax(0, 7fr); align-items: start; }}
  .dropper-right {{ position: sticky; top: 0; }}
  .dropper-read .dropper-table th:first-child {{ min-width: 6.5em; }}
  .dropper-columns .noUi-handle {{ scroll-margin-bottom: min(420px, 45vh); }} }}
@container panel (min-width: 1100px) {{
  .dropper-form {{ grid-template-columns: minmax(0, 13fr) minmax(0, 12fr); }}
  .dropper-form-drawing {{ position: sticky; top: 0; align-self: start; }}
  .dropper-columns {{ grid-template-columns: minmax(min-content, 26em) minmax(0, 1100px); }} }}
@container panel (max-width: {TWO_COLUMNS - 0.02}px) {{
  .dropper-columns {{ --dropper-apart: 1; grid-template-areas: "pic" "hand" "more" "read" "before" "after"; }}
  .dropper-left, .dropper-right, .dropper-columns .dropper-stack, .dropper-columns .dropper-stack > .widget-html,
  .dropper-columns .dropper-stack > .widget-html > .widget-html-content {{ display: contents !important; }}
  .dropper-columns .dropper-stack svg {{ grid-area: pic; position: sticky; top: 0; z-index: 2; align-self: start; }}
  .dropper-columns .dropper-stack svg.dropper-more {{ grid-area: more; position: static; z-index: 0; }}
  .dropper-by-hand {{ grid-area: hand; }} .dropper-read {{ grid-area: read; }}
  .dropper-before {{ grid-area: before; }} .dropper-after {{ grid-area: after; }}
  .dropper-columns .noUi-handle, .dropper-by-hand button, .dropper-by-hand select {{
    scroll-margin-top: calc(var(--dropper-covered, 300px) + 24px); }} }}
@container panel (max-width: 420px) {{ .dropper-table th, .dropper-table td {{ padding: 2px; white-space: normal; }}
  .dropper-table th:first-child {{ overflow-wrap: anywhere; }} .dropper-table td.now {{ white-space: nowrap; }} }}
@container panel (max-width: 620px) {{ .dropper-log tr, .dropper-log td, .dropper-log th {{ display: block; }}
  .dropper-log thead {{ display: none; }} .dropper-log tr {{ padding-bottom: 6px; }} }}
@container panel (max-width: 620px) {{ .dropper-after .dropper-table {{ display: block; overflow-x: auto; }} }}
@container panel (max-width: 340px) {{
  .dropper-heat li {{ grid-template-columns: minmax(20px, 1fr) auto auto; }}
  .dropper-heat li > :first-child {{ grid-column: 1 / -1; }} }}
@container panel (max-width: 260px) {{ .dropper-table td.now {{ white-space: normal; }} }}
@media print {{ .dropper-columns .dropper-stack svg, .dropper-right {{ position: static !important; }}
  .dropper-fit {{ break-inside: avoid; }} }}
"""
STYLE = Markup(f"<style>\n{style_sheet()}{_WORDS}{_READINGS}{_PLACE}{_COLUMNS}{SLIDERS}{glow.STYLE}</style>")
