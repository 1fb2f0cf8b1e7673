// The coin that a form is about, in one line.
import { html, nothing } from './html.js';
import { holder, mark } from './holder.js';
import { showId } from './words.js';

/** Title, date and grade in one line of text. */
export const coinTitle = (card) => [card.title, card.dateText, card.grade].filter(Boolean).join(', ');

export function slip(ui, card) {
  return html`<div class="slip">${holder({ denom: card.denom, top: mark(card.denom, ui.engine.reference), year: card.year ?? '' })}
    <p><b class="serif">${card.title}</b><br><span class="figures">${card.dateText}</span>${card.grade ? html` <span class="figures">${card.grade}</span>` : nothing} <span class="soft small id">${showId(card.id)}</span></p></div>`;
}
