// Who the coin is: its holder beside title, date, grade, state and place.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { coinWhere } from './coin-where.js';
import { photoUrl } from './photo-url.js';
import { capital, HELD, STATES } from './words.js';

export function coinTop(ui, card) {
  const { engine } = ui;
  const state = STATES[card.state] ?? STATES['in stock'];
  const front = card.photos?.find((one) => one.side === 'obverse') ?? card.photos?.find((one) => one.side === 'holder');
  return html`<div class="coin-top">
    ${holder({
      denom: card.denom, top: mark(card.denom, engine.reference), year: card.year ?? '', size: 'medium',
      photo: front ? photoUrl(front, 'thumb') : '', waiting: card.waiting?.length > 0,
    })}
    <div class="who">
      <h2 class="name">${card.title}</h2>
      <p class="date serif figures">${card.dateText}</p>
      ${card.variety ? html`<p class="soft">${card.variety}</p>` : nothing}
      <p class="grade">${card.grade ? html`<b class="figures">${card.grade}</b> <span class="soft small">${card.gradeName}</span>` : html`<span class="soft">Not graded</span>`}</p>
      <p class="state ${state.tone}">${icon(state.sign)}${capital(card.state)}</p>
    </div>
    <dl class="where">
      ${card.place || HELD.includes(card.state) ? html`<div><dt>Place</dt><dd>${card.place || html`<span class="soft">not noted</span>`}</dd></div>` : nothing}
      ${card.certified_by ? html`<div><dt>Certified by</dt><dd>${card.certified_by} <span class="figures">${card.certificate}</span></dd></div>` : nothing}
      ${coinWhere(card)}
    </dl>
  </div>`;
}
