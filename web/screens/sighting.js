// One coin seen on somebody's table: what it is, what was asked, and from there on to a purchase.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { showDate } from '../parts/dates.js';
import { typed } from '../parts/field.js';
import { holder, mark } from '../parts/holder.js';
import { askDrop, rawOf } from '../parts/list-form.js';
import { show } from '../parts/money.js';
import { makeOwned } from '../parts/owned.js';
import { photoUrl } from '../parts/photo-url.js';
import { ANSWERS, readSeen, whereSeen } from '../parts/seen.js';
import { askedByNone, handOver } from '../naming/kept.js';

export function open(ui, { id }) {
  const { engine } = ui;
  const owned = makeOwned(ui);
  let book = null;
  let one = null;
  let want = null;

  async function load() {
    book = await readSeen(engine);
    one = book.sightings.find((each) => each.id === id) ?? null;
    want = one?.own?.want ? await engine.card('want', one.own.want) : null;
    ui.update();
  }
  load();
  return { title: 'Seen', changed: load, view, close: hideCosts };

  function buy() {
    askedByNone();
    const agreed = one.own?.answer === 'yes' && one.own.offer != null ? one.own.offer : one.ask;
    ui.go(handOver({ denom: one.denom, type: one.type, title: rawOf(one).title, year: one.year == null ? '' : String(one.year), mint: one.mint,
      grade: one.grade, price: typed(ui, agreed), from: one.dealer }, want?.id ?? ''));
  }

  function drop() {
    askDrop(ui, 'sighting', id, { title: 'Take it off the list?', words: 'What was seen is no longer listed, here and at the desk.', button: 'Take it off', list: '/seen', done: 'It is off the list.' });
  }

  function view() {
    const bar = head(ui, { title: 'Seen', back: '/seen' });
    if (!book) return bar;
    if (!one) return html`${bar}<div class="body gap"><p>This sighting is no longer on the list.</p><a class="button" href="/seen">To what was seen</a></div>`;
    const { currency, role } = engine.state;
    const contact = book.contacts.get(one.contact);
    const where = whereSeen(one, book.shows);
    return html`${bar}<div class="body coin">
      <div class="coin-top">${holder({ denom: one.denom, size: 'medium', top: mark(one.denom, engine.reference), year: one.year ?? '', photo: one.photo ? photoUrl({ photo: one.photo }, 'thumb') : '' })}<div class="who"><h2 class="name">${one.title}</h2>
        ${one.year == null ? nothing : html`<p class="date serif figures">${one.dateText}</p>`}<p class="grade"><b>${one.grade || 'No grade noted'}</b></p></div></div>
      <section class="panel money-panel" aria-labelledby="asked-title"><header><h2 id="asked-title">Price</h2>${role === 'owner' && one.own?.offer != null ? costButton(ui, 'your offer') : nothing}</header>
        <dl class="figures3"><div><dt>Asked</dt><dd class="lead">${one.ask == null ? html`<span class="soft">not said</span>` : html`<span class="money">${show(one.ask, currency)}</span>`}</dd></div>
          ${one.own?.offer != null ? html`<div><dt>Offered</dt><dd class="lead">${costsHidden() ? html`<span class="veil" aria-label="hidden">•••</span>` : html`<span class="money">${show(one.own.offer, currency)}</span>`}</dd></div>` : nothing}
          ${one.own?.answer ? html`<div><dt>Answer</dt><dd>${ANSWERS[one.own.answer]}</dd></div>` : nothing}</dl></section>
      <section class="panel"><header><h2>Where</h2>${contact ? html`<a class="button plain" href=${`/contacts/${contact.id}`}>${contact.name}${icon('on')}</a>` : nothing}</header><p>${where}<br><span class="soft small">${showDate(one.date)}</span></p></section>
      ${want ? html`<ul class="menu"><li><a href=${`/wants/${want.id}`}>${icon('wants')}<span><b>For a want</b><small>${want.title}, ${want.years || 'any date'}</small></span>${icon('on')}</a></li></ul>` : nothing}
      ${one.type ? html`<section class="panel"><header><h2>What you have</h2></header>${owned.view({ type: one.type, year: one.year, mint: one.mint, grade: one.grade })}</section>` : nothing}
      ${one.note ? html`<section class="panel"><header><h2>Note</h2></header><p class="note-text">${one.note}</p></section>` : nothing}
    </div><div class="actions"><div class="line"><button class="button main grow" @click=${buy}>${icon('buy')}Buy it</button>
      ${role === 'owner' ? html`<a class="button" href=${`/seen/${id}/edit`}>${icon('note')}Change</a><button class="button" @click=${drop} aria-label="Take it off the list">${icon('close')}</button>` : nothing}</div></div>`;
  }
}
