// The want list: what is sought, how badly, who has one, and how much to pay for it.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder, mark } from '../parts/holder.js';
import { show } from '../parts/money.js';
import { count } from '../parts/words.js';
import { segments } from '../parts/field.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden } from '../parts/discretion.js';
import { lastTable, nearness, readSeen } from '../parts/seen.js';
import { ordered, ORDERS, seenFor } from '../parts/want-order.js';
import { gradeSpan, PRIORITY } from '../parts/wanted.js';
import { askedByNone } from '../naming/kept.js';

const BY = 'exergue.wants-by';
const MANY = 7; // wants from which a search is offered

export function open(ui) {
  const { engine } = ui;
  let found = null;
  let book;
  let by = localStorage.getItem(BY) ?? 'priority';
  let table = lastTable()?.table ?? '';
  let text = '';

  async function load() {
    const [wants, read] = await Promise.all([engine.list('want'), readSeen(engine)]);
    book = read;
    found = wants.map((want) => ({ ...want, sightings: seenFor(want, book.sightings) }));
    ui.update();
  }
  load();
  return { title: 'Wants', changed: load, view, beside };

  function sort(order) {
    by = order || by;
    localStorage.setItem(BY, by);
    ui.update();
  }

  function standing() {
    return { show: book.here?.id ?? '', table };
  }

  function list() {
    const order = new Map((engine.reference?.denominations ?? []).map((one) => [one.key, one.order]));
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    const fits = (want) => words.every((word) => `${want.title} ${want.denomName} ${want.years} ${gradeSpan(want)} ${want.note}`.toLowerCase().includes(word));
    return ordered(found.filter(fits), by, standing(), (denom) => order.get(denom) ?? 999);
  }

  function view() {
    const owner = engine.state.role === 'owner';
    return html`${head(ui, { title: 'Wants' })}<div class="body rows-body">
      <nav class="chips" aria-label="Beside the wants"><a class="chip" href="/sets">${icon('stock')}Sets</a>${owner ? html`<a class="chip" href="/plan">${icon('sell')}Plan</a>` : nothing}<a class="chip" href="/seen">${icon('eye')}Seen at tables</a><a class="chip" href="/contacts">${icon('show')}Contacts</a></nav>
      ${found === null ? nothing : !found.length ? html`<div class="empty">${holder({ open: true, size: 'medium' })}
          <h2>${owner ? 'Nothing is wanted yet' : 'Wants stay with the owner'}</h2>
          <p>${owner ? 'Put a want on the list here, or make wants from the open slots of a set.' : 'A helper’s phone holds the stock, not the want list.'}</p></div>` : some()}
    </div>${owner ? html`<div class="actions"><div class="line"><a class="button grow" href="/name" @click=${askedByNone}>${icon('glass')}Name the coin</a>
      <a class="button main grow" href="/wants/new">${icon('add')}New want</a></div></div>` : nothing}`;
  }

  function some() {
    const rows = list();
    return html`<div class="gap finder-plain">${segments('by', by, ORDERS, sort, 'Order')}
      ${found.length > MANY ? html`<div class="search">${icon('search')}<input type="search" aria-label="Search the wants" placeholder="Type, date, grade" .value=${text} autocomplete="off" @input=${(event) => { text = event.target.value; ui.update(); }}></div>` : nothing}
      ${by === 'near' ? tables() : nothing}</div>
      <div class="row apart found"><p class="soft small">${count(rows.length, 'want')}${rows.length < found.length ? ` of ${found.length}` : ''}</p>${engine.state.role === 'owner' ? costButton(ui, 'the ceilings') : nothing}</div>
      <ul class="rows">${repeat(rows, (want) => want.id, row)}</ul>`;
  }

  // The table at which one stands: what is there comes first.
  function tables() {
    if (!book.here) return html`<p class="small soft">Choose the show you are at under More, and what was seen there comes first.</p>`;
    const known = [...new Set(book.sightings.filter((one) => one.show === book.here.id && one.table).map((one) => one.table))].sort((a, b) => a.localeCompare(b, undefined, { numeric: true }));
    if (!known.length) return nothing;
    return html`<div class="chips" role="group" aria-label="The table you are at">${known.map((one) => html`<button class="chip ${one === table ? 'on' : ''}" aria-pressed=${String(one === table)}
      @click=${() => { table = one === table ? '' : one; ui.update(); }}>${one === table ? icon('fits') : nothing}Table ${one}</button>`)}</div>`;
  }

  function row(want) {
    const [sign, words, tone] = PRIORITY[want.priority] ?? PRIORITY.usual;
    const ceiling = want.own?.ceiling;
    return html`<li><a class="coin-row" href=${`/wants/${want.id}`} aria-current=${location.pathname === `/wants/${want.id}` ? 'true' : nothing}>
      ${holder({ open: true, top: mark(want.denom, engine.reference) })}
      <span class="what"><span class="title serif">${want.title}</span>
        <span class="line">${want.years ? html`<b class="figures">${want.years}</b>` : html`<b>any date</b>`}<span class="figures">${gradeSpan(want)}</span></span>
        ${words || want.waiting?.length ? html`<span class="line small">${words ? html`<span class="state ${tone}">${icon(sign)}${words}</span>` : nothing}${want.waiting?.length ? html`<span class="state warn">${icon('entries')}waits to be sent</span>` : nothing}</span>` : nothing}
        ${want.seen ? html`<span class="line small seen-at ${nearness(want.seen, standing()) === 2 ? 'soft' : ''}">${icon('eye')}<span>${[want.seen.dealer, want.seen.table && `table ${want.seen.table}`, want.seen.grade].filter(Boolean).join(', ') || 'Seen'}${want.seen.ask == null ? nothing : html`: <b class="money">${show(want.seen.ask, engine.state.currency, { short: true })}</b>`}</span></span>` : nothing}</span>
      ${costsHidden() ? nothing : ceiling === null || ceiling === undefined ? html`<span class="ask soft small">no ceiling</span>` : html`<span class="ask money"><small class="soft">up to</small> ${show(ceiling, engine.state.currency, { short: true })}</span>`}
    </a></li>`;
  }

  function beside() {
    return html`<div class="empty beside">${holder({ open: true, size: 'medium' })}<h2>Choose a want</h2></div>`;
  }
}
