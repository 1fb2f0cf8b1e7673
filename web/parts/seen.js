// Sightings: who has what at which price, and how near that is to where one stands.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { show } from './money.js';
import { showDate } from './dates.js';
import { photoUrl, readWaiting } from './photo-url.js';
import { currentShow } from './show-field.js';
import { capital } from './words.js';

export const ANSWERS = { '': 'No offer made', open: 'Open', yes: 'Yes', no: 'No', counter: 'Another price named' };
const SIGNS = { open: ['wait', 'warn'], yes: ['fits', 'good'], no: ['differs', 'quiet'], counter: ['sync', 'warn'] };

const AT = 'exergue.at-table'; // where the last sighting of this tab was made

/** {show, dealer, table} of the last sighting made here today, or null. */
export function lastTable() {
  try { return JSON.parse(sessionStorage.getItem(AT)); } catch { return null; }
}

export const atTable = (where) => (where ? sessionStorage.setItem(AT, JSON.stringify(where)) : sessionStorage.removeItem(AT));

/** {sightings: cards, the newest first, each with its contact's name of now, contacts: Map, shows: Map, here: the show one is at}. */
export async function readSeen(engine) {
  const [found, contacts, shows] = await Promise.all(['sighting', 'contact', 'show'].map((kind) => engine.list(kind)));
  const known = new Map(contacts.map((one) => [one.id, one]));
  const sightings = found.map((one) => ({ ...one, dealer: known.get(one.contact)?.name || one.dealer, table: one.table || '' }))
    .sort((a, b) => b.date.localeCompare(a.date) || (a.id < b.id ? 1 : -1));
  await readWaiting(engine, sightings.filter((one) => one.photo && one.waiting).map((one) => ({ photo: one.photo, local: true })));
  return { sightings, contacts: known, shows: new Map(shows.map((one) => [one.id, one])), here: currentShow(shows) };
}

/** 0: at this table of this show, 1: at this show, 2: elsewhere. Smaller is nearer; `table` may be ''. */
export const nearness = (one, { show: at, table }) => (at && one.show === at ? (table && one.table === table ? 0 : 1) : 2);

/** The nearest of some sightings, of those as near the newest (they come newest first); null of none. */
export const nearest = (found, at) => found.reduce((best, one) => (best && nearness(best, at) <= nearness(one, at) ? best : one), null);

export const whereSeen = (one, shows) => [one.dealer, one.table && `table ${one.table}`, shows.get(one.show)?.name].filter(Boolean).join(', ') || 'Nobody said';

/** One sighting of a list. `whose`: false where the dealer stands above it; then `at`: false where the show does, too. */
export function seenRow(ui, one, { shows }, { whose = true, at = true } = {}) {
  const { engine } = ui;
  const [sign, tone] = SIGNS[one.own?.answer] ?? [];
  const about = whose ? whereSeen(one, shows) : [one.table && `table ${one.table}`, at && shows.get(one.show)?.name].filter(Boolean).join(', ');
  return html`<li><a class="coin-row" href=${`/seen/${one.id}`} aria-current=${location.pathname === `/seen/${one.id}` ? 'true' : nothing}>
    ${holder({ denom: one.denom, top: mark(one.denom, engine.reference), year: one.year ?? '', photo: one.photo ? photoUrl({ photo: one.photo }, 'thumb') : '', waiting: Boolean(one.waiting?.length) })}
    <span class="what"><span class="title serif">${one.title}</span>
      <span class="line">${one.year == null ? nothing : html`<b class="figures">${one.dateText}</b>`}${one.grade ? html`<span class="figures">${one.grade}</span>` : nothing}</span>
      <span class="line soft small"><span>${capital([about, showDate(one.date)].filter(Boolean).join(', '))}</span>
        ${sign ? html`<span class="state ${tone}">${icon(sign)}${ANSWERS[one.own.answer]}</span>` : nothing}
        ${one.waiting?.length ? html`<span class="state warn">${icon('entries')}waits to be sent</span>` : nothing}</span></span>
    ${one.ask == null ? html`<span class="ask soft small">no price</span>` : html`<span class="ask money">${show(one.ask, engine.state.currency, { short: true })}</span>`}
  </a></li>`;
}
