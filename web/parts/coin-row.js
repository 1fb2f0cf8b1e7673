// One coin of a list: its holder, what it is, what it asks.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { show } from './money.js';
import { photoUrl } from './photo-url.js';
import { STATES } from './words.js';

export function coinRow(row, engine) {
  const state = STATES[row.state] ?? STATES['in stock'];
  return html`<li><a class="coin-row" href=${`/c/${row.id}`} aria-current=${location.pathname.startsWith(`/c/${row.id}`) ? 'true' : nothing}>
    ${holder({ denom: row.denom, top: mark(row.denom, engine.reference), year: year(row.dateText), photo: row.photo ? photoUrl({ photo: row.photo }, 'thumb') : '', waiting: waits(row) })}
    <span class="what">
      <span class="title serif">${row.title}</span>
      <span class="line"><b class="figures">${row.dateText}</b>${row.grade ? html`<span class="figures">${row.grade}</span>` : nothing}</span>
      <span class="line soft small">${row.place ? html`<span class="place">${row.place}</span>` : nothing}
        ${row.state !== 'in stock' ? html`<span class="state ${state.tone}">${icon(state.sign)}${row.state}</span>` : nothing}
        ${waits(row) ? html`<span class="state warn">${icon('entries')}waits to be sent</span>` : nothing}</span>
    </span>
    ${row.ask === null || row.ask === undefined ? html`<span class="ask soft small">no price</span>` : html`<span class="ask money">${show(row.ask, engine.state.currency, { short: true })}</span>`}
  </a></li>`;
}

const waits = (row) => (Array.isArray(row.waiting) ? row.waiting.length > 0 : Boolean(row.waiting));
const year = (text) => (/^\d{4}/.test(text ?? '') ? text.slice(0, 4) : '');
