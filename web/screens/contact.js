// One dealer or buyer: how to reach them, what was seen there, and the deals with them that this phone knows.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { showDate } from '../parts/dates.js';
import { entryWords } from '../parts/entry-words.js';
import { askDrop } from '../parts/list-form.js';
import { show } from '../parts/money.js';
import { partyIn } from '../parts/party.js';
import { readSeen, seenRow } from '../parts/seen.js';
import { capital } from '../parts/words.js';
import { handTo } from '../naming/kept.js';

const KINDS = { ticket: 'Sale', purchase: 'Purchase', trade: 'Trade', return: 'Return', memo: 'On memo', inherited: 'Inherited', gift: 'Gift' };
const cameOf = (body) => body.price ?? body.refund ?? (body.costs ? body.costs.reduce((sum, line) => sum + line.cents, 0) : null);

export function open(ui, { id }) {
  const { engine } = ui;
  let book = null;
  let contact = null;
  let seen = [];
  let waiting = []; // deals with this name that the desk has not answered yet
  let mine = new Set(); // entries of this phone, which have a receipt

  async function load() {
    let entries;
    [book, contact, entries] = await Promise.all([readSeen(engine), engine.card('contact', id), engine.entries()]);
    seen = book.sightings.filter((one) => one.contact === id);
    mine = new Set(entries.map(({ fact }) => fact.id));
    const undone = new Set(entries.filter(({ fact, state }) => fact.kind === 'void' && state !== 'refused').map(({ fact }) => fact.body.of));
    waiting = entries.filter(({ fact, state }) => state === 'waiting' && !undone.has(fact.id) && contact?.name && partyIn(fact) === contact.name).map(({ fact }) => fact);
    ui.update();
  }
  load();
  return { title: 'Contact', changed: load, view, close: hideCosts };

  function note() {
    ui.go(handTo('/seen/new', { dealer: contact.name, table: contact.table }));
  }

  function drop() {
    askDrop(ui, 'contact', id, { title: 'Take the contact off the list?', words: 'Deals and sightings stay as they are.', button: 'Take it off', list: '/contacts', done: 'The contact is off the list.' });
  }

  function view() {
    const bar = head(ui, { title: 'Contact', back: '/contacts' });
    if (!book) return bar;
    if (!contact) return html`${bar}<div class="body gap"><p>This contact is no longer on the list.</p><a class="button" href="/contacts">To the contacts</a></div>`;
    const { currency, role } = engine.state;
    const deals = contact.own?.deals ?? [];
    return html`${bar}<div class="body coin">
      <section class="panel"><header><h2>${contact.name || 'Without a name'}</h2></header>
        ${contact.table ? html`<p>Table <b class="figures">${contact.table}</b></p>` : nothing}
        ${contact.note ? html`<p class="note-text">${contact.note}</p>` : nothing}
        ${contact.phone ? html`<a class="button" href=${`tel:${contact.phone.replace(/[^\d+*#]/g, '')}`}>${icon('phone')}${contact.phone}</a>` : nothing}
        ${contact.waiting?.length ? html`<p class="small warn row">${icon('entries')}waits to be sent</p>` : nothing}</section>
      <section class="panel"><header><h2>Seen here</h2></header>${seen.length ? html`<ul class="rows inner">${seen.map((one) => seenRow(ui, one, book, { whose: false }))}</ul>` : html`<p class="soft">Nothing noted yet.</p>`}</section>
      ${role === 'owner' || waiting.length ? html`<section class="panel"><header><h2>Deals</h2>${deals.length ? costButton(ui, 'amounts') : nothing}</header>
        ${waiting.length || deals.length ? html`<ul class="deals-with">
          ${waiting.map((fact) => html`<li><span><b>${KINDS[fact.kind] ?? capital(fact.kind)}</b> <span class="soft small">waits to be sent</span></span>${amount(cameOf(fact.body), currency)}</li>`)}
          ${deals.map((one) => html`<li><span>${mine.has(one.fact) ? html`<a href=${`/receipt/${one.fact}`}>${KINDS[one.kind] ?? capital(one.kind)}</a>` : html`<b>${KINDS[one.kind] ?? capital(one.kind)}</b>`}
            <span class="soft small">${[showDate(one.date), book.shows.get(one.show)?.name].filter(Boolean).join(', ')}</span></span>${amount(one.cents, currency)}</li>`)}</ul>`
          : html`<p class="soft">No deal under this name yet.</p>`}</section>` : nothing}
    </div><div class="actions"><div class="line"><button class="button main grow" @click=${note}>${icon('eye')}Note a coin</button>
      ${role === 'owner' ? html`<a class="button" href=${`/contacts/${id}/edit`}>${icon('note')}Change</a><button class="button" @click=${drop} aria-label="Take it off the list">${icon('close')}</button>` : nothing}</div></div>`;
  }

  function amount(cents, currency) {
    if (cents === null || cents === undefined) return nothing;
    return costsHidden() ? html`<span class="veil" aria-label="hidden">•••</span>` : html`<span class="money">${show(cents, currency)}</span>`;
  }
}
