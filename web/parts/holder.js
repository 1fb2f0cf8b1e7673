// The 2×2 holder: a square card, staples, a round window. In the window: a photo, or the denomination with the
// date in the exergue, under a ground line.
import { html, nothing, svg } from './html.js';

const GOLD = /eagle|gold|sovereign|gb-threepence/; // brass is drawn as gold
const COPPER = new Set(['half-cent', 'large-cent', 'small-cent', 'two-cents', 'gb-penny', 'gb-twopence', 'ca-large-cent', 'ca-small-cent']);
const IN_CENTS = new Set(['US', 'CA']); // countries whose money is written with ¢ and $

// A tint for the drawing only; it claims nothing of the coin.
export function tint(denom = '') {
  return GOLD.test(denom) ? 'gold' : COPPER.has(denom) ? 'copper' : denom ? 'silver' : 'plain';
}

// "½¢", "25¢", "$2½": what is engraved in the window.
export function mark(denom, reference) {
  const found = reference?.denominations?.find((one) => one.key === denom);
  if (!found || (found.country && !IN_CENTS.has(found.country))) return '';
  const { cents } = found;
  if (cents < 100) return `${cents === 0.5 ? '½' : cents}¢`;
  return `$${Math.floor(cents / 100) || ''}${cents % 100 === 50 ? '½' : ''}`;
}

// Small: one thing that can be read at arm's length. One box, drawn by its style alone: a list or a board has hundreds, and each
// element of a drawing costs time in the frame that it appears in.
const small = (top, year, photo) => html`<i class="window ${photo ? 'photo' : top ? 'big' : 'year'}" .style=${photo ? `background-image: url("${photo}")` : ''}>${photo ? '' : top || year}</i>`;

// Large: as on a coin, the date in the exergue.
const large = (top, year) => svg`<circle class="window" cx="50" cy="50" r="36"/><circle class="disc" cx="50" cy="50" r="32.5"/>
  <circle class="beads" cx="50" cy="50" r="29.5"/>
  ${top ? svg`<text class="engraved big" x="50" y="53">${top}</text>` : nothing}
  ${year ? svg`<path class="ground" d="M26 58.5H74"/><text class="engraved year" x="50" y=${top ? 69.5 : 54}>${year}</text>` : nothing}
  <circle class="rim" cx="50" cy="50" r="36"/>`;

const empty = (top) => svg`<circle class="window" cx="50" cy="50" r="36"/>${top ? svg`<text class="engraved big ghost" x="50" y="60">${top}</text>` : nothing}
  <circle class="rim" cx="50" cy="50" r="36"/>`;

const drawing = (open, top, year) => html`<svg viewBox="0 0 100 100" aria-hidden="true" focusable="false">
  <path class="staple" d="M9.5 38.5v8.5M90.5 53v8.5M39 9.8l8.5-.5M53 90.6l8.5.5"/>${open ? empty(top) : large(top, year)}</svg>`;

// size: mini | medium | large. `open` draws an empty window, a place to be filled, with `top` faint in it. A photo waits until it is
// near the screen; `painted`, in a mini one, it is the background of the window, which costs least where there are hundreds.
export function holder({ denom = '', top = '', year = '', photo = '', alt = '', size = 'mini', open = false, waiting = false, painted = false }) {
  const date = year && !open ? String(year) : '';
  return html`<span class="holder ${size} ${open ? 'open' : tint(denom)} ${waiting ? 'waiting' : ''}"
    role=${alt ? 'img' : nothing} aria-label=${alt || nothing} aria-hidden=${alt ? nothing : 'true'}>
    ${size === 'mini' ? small(top, date, painted && photo) : drawing(open, top, date)}${photo && !painted ? html`<img src=${photo} alt="" loading="lazy" decoding="async" @error=${hide}>` : nothing}
  </span>`;
}

function hide(event) {
  event.target.hidden = true;
}
