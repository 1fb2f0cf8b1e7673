// The 2×2 holder: a square card, two staples, a round window. In the window: a photo, or the denomination with the
// date in the exergue, under a ground line.
import { html, nothing, svg } from './html.js';

const GOLD = /eagle|gold/;
const COPPER = new Set(['half-cent', 'large-cent', 'small-cent', 'two-cents']);

// A tint for the drawing only; it claims nothing of the coin.
export function tint(denom = '') {
  return GOLD.test(denom) ? 'gold' : COPPER.has(denom) ? 'copper' : denom ? 'silver' : 'plain';
}

// "½¢", "25¢", "$2½": what is engraved in the window.
export function mark(denom, reference) {
  const found = reference?.denominations?.find((one) => one.key === denom);
  if (!found) return '';
  const { cents } = found;
  if (found.country && found.country !== 'US') return '';
  if (cents < 100) return `${cents === 0.5 ? '½' : cents}¢`;
  return `$${Math.floor(cents / 100) || ''}${cents % 100 === 50 ? '½' : ''}`;
}

const engraved = (top, year, below) => svg`
  <circle class="rim-beads" cx="50" cy="50" r="29.5"/>
  ${top ? svg`<text class="engraved big" x="50" y="53">${top}</text>` : nothing}
  ${year ? svg`<path class="ground" d="M26 ${top ? 58.5 : 56}H74"/><text class="engraved year" x="50" y="${top ? 69.5 : 50.5}">${year}</text>` : nothing}
  ${!top && below ? svg`<text class="engraved year" x="50" y="68">${below}</text>` : nothing}`;

// size: mini | medium | large. `open` draws an empty window: a place to be filled.
export function holder({ denom = '', top = '', year = '', mint = '', photo = '', alt = '', size = 'mini', open = false, waiting = false }) {
  const label = alt ? { role: 'img', text: alt } : null;
  const drawing = html`<svg viewBox="0 0 100 100" aria-hidden="true" focusable="false">
      <path class="staple" d="M9.5 38.5v8.5M90.5 53v8.5"/>
      ${size === 'mini' ? nothing : svg`<path class="staple" d="M39 9.800l8.5-.5M53 90.600l8.5.5"/>`}
      <circle class="window" cx="50" cy="50" r="36"/>
      ${open ? nothing : svg`<circle class="disc" cx="50" cy="50" r="32.5"/>${engraved(top, year ? String(year) : '', mint)}`}
      <circle class="rim" cx="50" cy="50" r="36"/>
    </svg>`;
  return html`<span class="holder ${size} ${open ? 'open' : tint(denom)} ${waiting ? 'waiting' : ''}"
    role=${label ? 'img' : nothing} aria-label=${label ? alt : nothing} aria-hidden=${label ? nothing : 'true'}>
    ${drawing}${photo ? html`<img src=${photo} alt="" loading="lazy" decoding="async" @error=${hide}>` : nothing}
  </span>`;
}

function hide(event) {
  event.target.hidden = true;
}
