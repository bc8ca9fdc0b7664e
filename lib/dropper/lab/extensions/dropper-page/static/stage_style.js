// How the stage looks: type of 20 pixels and more, the page's own colours, light or dark.
export const FOOT = '--dropper-foot'; // how much of the screen the lines below a panel take

export const STYLE = `
.dropper-on-stage.dropper-on-stage { position: fixed; inset: 0 0 auto 0; box-sizing: border-box; margin: 0; border: 0;
  padding: 8px 12px; width: auto; max-width: none; height: calc(100% - var(${FOOT}, 60px)); max-height: none; overflow: auto;
  background: var(--jp-layout-color0); color: var(--jp-content-font-color1); }
.dropper-on-stage .dropper-fit.dropper-fit { max-width: none !important; }
.dropper-on-stage .dropper-verdict > button, .dropper-on-stage.dropper-held .dropper-verdict { display: none !important; }
.dropper-on-stage svg[role=img]:not(.dropper-curves) :is(text, tspan) { font-size: var(--dropper-letters, 15px);
  --dropper-apart-by: max(0px, var(--dropper-letters, 15px) * 1.05 - 15px); }
.dropper-on-stage svg[role=img] text:not([dominant-baseline=hanging]) tspan:nth-last-child(2) { baseline-shift: var(--dropper-apart-by); }
.dropper-on-stage svg[role=img] text:not([dominant-baseline=hanging]) tspan:nth-last-child(3) { baseline-shift: calc(2 * var(--dropper-apart-by)); }
.dropper-on-stage svg[role=img] text[dominant-baseline=hanging] tspan:nth-child(2) { baseline-shift: calc(-1 * var(--dropper-apart-by)); }
.dropper-on-stage svg[role=img]:not(.dropper-curves) { overflow: visible; }
.dropper-stage { position: fixed; inset: 0; margin: 0; border: 0; padding: 0; width: auto; height: auto; max-width: none;
  max-height: none; background: none; pointer-events: none; display: flex; flex-direction: column; justify-content: flex-end;
  overflow: hidden; font: 22px/1.35 var(--jp-ui-font-family); color: var(--jp-content-font-color1); }
.dropper-stage > * { pointer-events: auto; box-sizing: border-box; margin: 0; }
.dropper-stage-question { display: none; flex: 1; min-height: 0; overflow: auto; padding: 4vh 5vw; background: var(--jp-layout-color0); }
.dropper-stage.asks .dropper-stage-question { display: block; }
.dropper-stage.asks .dropper-stage-answer { display: none; }
.dropper-stage h1 { font-size: clamp(28px, 3vw, 48px); line-height: 1.25; margin: 0 0 3vh; outline: none; }
.dropper-stage ol { list-style: none; margin: 0; padding: 0; font-size: clamp(24px, 2.2vw, 38px); }
.dropper-stage li { display: grid; grid-template-columns: auto minmax(0, 1fr) auto auto auto; align-items: center; gap: 8px 14px;
  padding: 1.2vh 0; border-bottom: 1px solid var(--jp-border-color1); }
.dropper-stage .track { grid-column: 2 / -1; height: 14px; background: var(--jp-layout-color2); }
.dropper-stage .bar { display: block; height: 100%; width: 0; background: var(--dropper-blue, #0072b2); }
.dropper-stage input { font: inherit; width: 3.4em; text-align: right; padding: 4px 8px; color: inherit;
  background: var(--jp-layout-color1); border: 2px solid var(--jp-border-color0, #767676); border-radius: 6px; }
.dropper-stage button { font: inherit; color: inherit; background: var(--jp-layout-color1); cursor: pointer; min-width: 48px;
  min-height: 44px; padding: 4px 10px; border: 2px solid var(--jp-border-color0, #767676); border-radius: 6px; }
.dropper-stage button[aria-pressed="true"] { border-color: var(--dropper-blue, #0072b2); border-width: 4px; padding: 2px 8px; }
.dropper-stage button:disabled { opacity: .5; cursor: default; }
.dropper-stage :focus-visible { outline: 4px solid var(--dropper-blue, #0072b2); outline-offset: 2px; }
.dropper-stage h1:focus-visible { outline: none; }
.dropper-stage.dropper-stage kbd { font: 600 20px/1.3 var(--jp-ui-font-family); padding: 0 7px; margin-left: 8px; border: 1px solid currentColor;
  border-radius: 4px; background: none; color: inherit; box-shadow: none; }
.dropper-stage.dropper-stage li kbd { margin: 0; font-size: inherit; }
.dropper-stage .how { font-size: 22px; margin: 3vh 0; }
.dropper-stage-answer { padding: 10px 16px; font-size: 26px; background: var(--jp-layout-color1);
  border-top: 6px solid var(--dropper-blue, #0072b2); max-height: 38vh; overflow: auto; }
.dropper-stage-foot { display: flex; flex-wrap: wrap; align-items: center; gap: 6px 8px; padding: 6px 12px; font-size: 20px;
  background: var(--jp-layout-color2); border-top: 1px solid var(--jp-border-color1); }
.dropper-stage-name { margin-right: auto; }
.dropper-stage-button { display: flex; align-items: center; }
.dropper-stage-button button { font: inherit; font-size: 13px; min-height: 24px; padding: 0 10px; cursor: pointer; color: inherit;
  background: var(--jp-layout-color1); border: 1px solid var(--jp-border-color0, #767676); border-radius: 4px; }
`;
