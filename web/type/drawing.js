// Small drawings of what to look at, made for this project: one file of symbols, named by feature and value.
import { html, nothing } from '../parts/html.js';
import { DRAWN } from './drawn.js';

export const isDrawn = (feature, value) => DRAWN.has(`${feature}-${value}`);

export function drawing(feature, value) {
  if (!isDrawn(feature, value)) return nothing;
  return html`<svg class="drawing" viewBox="0 0 48 48" aria-hidden="true" focusable="false"><use href=${`/web/type/drawings.svg#${feature}-${value}`}></use></svg>`;
}
