// Notes, newest first.
import { html, nothing } from './html.js';
import { showTime } from './dates.js';

export function coinNotes(card) {
  if (!card.notes?.length) return nothing;
  return html`<section class="panel" aria-labelledby="notes-title"><header><h2 id="notes-title">Notes</h2></header>
    <ul class="notes">${card.notes.toReversed().map((note) => html`<li><p>${note.text}</p><small class="soft">${showTime(note.when)}</small></li>`)}</ul></section>`;
}
