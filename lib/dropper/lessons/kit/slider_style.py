"""Slider style: sliders, fields and buttons that are seen in light, in dark and in forced colours, and their focus."""

_CHEVRON = (
    "<svg xmlns='http://www.w3.org/2000/svg' width='18' height='18' viewBox='0 0 18 18'>"
    "<path fill='none' stroke='%23eee' stroke-width='2' d='M4 6.5l5 5 5-5'/></svg>"
)
SLIDERS = """
body { --dropper-edge: #6b6b6b; --dropper-track: #e4e4e4; --dropper-accent: #0072b2; }
body[data-jp-theme-light="false"] { --dropper-edge: #9a9a9a; --dropper-track: #3a3a3a; --dropper-accent: #4da3e0; }
.dropper-fit .widget-hslider { width: auto !important; height: auto !important; display: grid !important;
  grid-template: "name value" "track track" / 1fr auto; margin: 2px 0 !important; max-width: 640px; }
.dropper-fit .widget-hslider > .widget-label { grid-area: name; width: auto !important; text-align: left;
  white-space: normal; height: auto; line-height: 1.4; }
.dropper-fit .widget-hslider > .widget-readout { grid-area: value; width: auto; min-width: 0; max-width: none;
  text-align: right; font-weight: 600; height: auto; line-height: 1.4; margin: 0; overflow: visible; }
.dropper-fit .widget-hslider > .slider-container { grid-area: track; height: 28px; margin: 0 12px; display: flex;
  align-items: center; width: auto; }
.dropper-fit .slider-container > .noUi-target { flex: 1 1 auto; height: 8px; margin: 0 !important; padding: 0 16px;
  border: 0 !important; background: none; box-shadow: none; clip-path: inset(-14px 0); }
.dropper-fit .noUi-base { height: 8px; }
.dropper-fit .noUi-connects { display: none; }
.dropper-fit .noUi-base::before { content: ""; position: absolute; inset: 0 -16px; box-sizing: border-box;
  background: var(--dropper-track); border: 1px solid var(--dropper-edge); border-radius: 4px; }
.dropper-fit .noUi-origin::before { content: ""; position: absolute; top: 0; right: 0; width: 3000px; height: 8px;
  background: var(--dropper-accent); }
.dropper-fit .noUi-horizontal .noUi-handle { width: 24px !important; height: 24px !important; right: -12px !important;
  top: -8px !important; border-radius: 50%; box-sizing: border-box; background: var(--dropper-paper) !important;
  border: 3px solid var(--dropper-accent) !important; box-shadow: none; transform: none !important; cursor: pointer; }
.dropper-fit .noUi-handle:focus-visible { outline: 3px solid var(--dropper-ink) !important;
  outline-offset: 1px !important; }
.dropper-fit .noUi-target[disabled], .dropper-fit .noUi-target[disabled] * { opacity: 1; }
.dropper-fit [disabled] .noUi-origin::before { background: none; }
.dropper-fit [disabled] .noUi-base::before { background: none; border-style: dashed; }
.dropper-fit [disabled] .noUi-handle { border: 2px dashed var(--dropper-edge) !important; cursor: not-allowed; }
.jp-OutputArea-output .jupyter-widgets button, .jp-OutputArea-output button.jupyter-widgets,
.jp-OutputArea-output .jupyter-widgets select, .jp-OutputArea-output .jupyter-widgets input:not([type=file]),
.jp-OutputArea-output .jupyter-widgets textarea {
  border: 1px solid var(--dropper-edge) !important; border-radius: 4px; }
.jp-OutputArea-output button.jupyter-button { height: auto; min-height: 28px; white-space: normal; overflow: visible;
  line-height: 1.3; padding: 3px 10px; }
.jp-OutputArea-output button.jupyter-button:disabled { border-style: dashed !important; }
body[data-jp-theme-light="false"] .widget-dropdown select {
  background-image: url("data:image/svg+xml;utf8,CHEVRON") !important; }
.dropper-fit .widget-dropdown { width: auto !important; max-width: 640px; height: auto; flex-wrap: wrap; }
.dropper-fit .widget-dropdown > .widget-label, .dropper-fit .widget-text > .widget-label,
.dropper-fit .widget-textarea > .widget-label { width: auto !important; min-width: 90px; max-width: 100%;
  text-align: left; white-space: normal; height: auto; overflow: visible; }
.dropper-fit .widget-hbox > .widget-dropdown, .dropper-fit .widget-hbox > .widget-text { flex: 0 1 390px; }
.dropper-fit .widget-radio-box label { height: auto; line-height: 1.35; white-space: normal; margin-bottom: 4px; }
.dropper-fit .widget-checkbox > label, .dropper-fit .widget-label-basic { white-space: normal; height: auto; }
.dropper-fit .widget-checkbox { width: auto; height: auto; max-width: 100%; }
.dropper-fit .widget-dropdown > select { min-width: 0; height: 28px; flex: 1 1 180px; }
.dropper-fit .widget-text, .dropper-fit .widget-textarea { width: auto !important; max-width: 640px; height: auto;
  flex-wrap: wrap; }
.dropper-fit .widget-text > input, .dropper-fit .widget-textarea > textarea { flex: 1 1 180px; min-width: 0; }
.jupyter-widgets .noUi-handle:focus-visible, .jupyter-widgets button:focus-visible, .jupyter-widgets
textarea:focus-visible, button.jupyter-widgets:focus-visible, .jupyter-widgets select:focus-visible, .jupyter-widgets
input:focus-visible { outline: 3px solid var(--dropper-blue) !important; outline-offset: 2px !important; }
@media (forced-colors: active) {
  body { --dropper-edge: CanvasText; --dropper-accent: Highlight; --dropper-track: Canvas; }
  .dropper-fit .noUi-base::before, .dropper-fit .noUi-origin::before, .dropper-fit .noUi-handle {
    forced-color-adjust: none; }
  .dropper-fit .noUi-horizontal .noUi-handle { background: Canvas !important; }
  .dropper-fit [disabled] .noUi-handle, .dropper-fit [disabled] .noUi-base::before {
    border-color: GrayText !important; }
  .jp-OutputArea-output button, .jp-OutputArea-output select { border: 1px solid ButtonText !important; } }
""".replace("CHEVRON", _CHEVRON)
