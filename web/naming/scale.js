// The screen at true scale: calibrated once with a bank card, whose size is a standard.
import { html, svg } from '../parts/html.js';

const KEY = 'exergue.px-a-mm';
export const CARD = { long: 85.6, short: 53.98 }; // mm, ISO/IEC 7810 ID-1
const USUAL = 96 / 25.4 * 1.6; // CSS pixels a millimetre of a usual phone, to begin with

export const calibrated = () => Number(localStorage.getItem(KEY)) || null;
export const pxAMm = () => calibrated() ?? USUAL;

/** A sheet to lay a card on: the drawn card is made as large as the real one. */
export function calibrate(ui, done) {
  let px = pxAMm();
  const set = (value) => { px = Math.min(14, Math.max(3, value)); ui.update(); };
  ui.sheet('True scale', () => html`<div class="gap">
    <p>Lay any bank card upright on the screen, its top left corner in the corner of the drawing. Move the slider until the drawing is as wide as the card.</p>
    <div class="card-drawn"><svg width=${CARD.short * px} height=${Math.min(CARD.long * px, 300)} aria-hidden="true">
      <rect x="1" y="1" width=${CARD.short * px - 2} height=${CARD.long * px - 2} rx=${3.18 * px}/></svg></div>
    <label class="stack"><span>Width of the card</span><input type="range" min="3" max="14" step="0.02" .value=${String(px)} @input=${(event) => set(Number(event.target.value))}></label>
    <div class="row"><button class="button" aria-label="A little smaller" @click=${() => set(px - 0.02)}>−</button><button class="button" aria-label="A little larger" @click=${() => set(px + 0.02)}>+</button>
      <button class="button main grow" @click=${() => { localStorage.setItem(KEY, px.toFixed(3)); ui.closeSheet(); done(); }}>The card fits</button></div>
    <p class="small soft">A bank card is 53.98 mm wide everywhere (ISO/IEC 7810). It is asked once on this phone.</p></div>`);
}

/** A circle of `mm` at true scale, to lay the coin on. */
export function circle(mm) {
  const px = pxAMm();
  const side = (mm + 6) * px;
  return svg`<svg class="true-circle" width=${side} height=${side} viewBox=${`0 0 ${side} ${side}`} aria-hidden="true">
    <circle cx=${side / 2} cy=${side / 2} r=${(mm / 2) * px}/><path d=${`M${side / 2} 0V${2 * px}M${side / 2} ${side}v-${2 * px}M0 ${side / 2}h${2 * px}M${side} ${side / 2}h-${2 * px}`}/></svg>`;
}
