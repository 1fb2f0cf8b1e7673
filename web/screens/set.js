// One set as its board, and behind each window: what fills it, what would be better, its want, where one was seen.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { refilled } from '../engine/sets-here.js';
import { icon } from '../parts/icons.js';
import { asks, makeBoard, standing } from '../parts/board.js';
import { coinRow } from '../parts/coin-row.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { segments } from '../parts/field.js';
import { show } from '../parts/money.js';
import { readSeen, seenRow } from '../parts/seen.js';
import { seenFor } from '../parts/want-order.js';
import { gradeSpan } from '../parts/wanted.js';
import { count } from '../parts/words.js';
import { handTo } from '../naming/kept.js';

const SHOWN = 12;
const VIEWS = [['all', 'All'], ['open', 'Open'], ['better', 'To better']];
const FITS = { all: () => true, open: (slot) => !slot.coin, better: (slot) => Boolean(slot.coin && slot.upgrade) };

export function open(ui, { id }) {
  const { engine } = ui;
  let goal;
  let wanted = new Map(); // slot → its want
  let book = null;
  let spare = [];
  let unclear = new Map(); // coin → card, of those that say too little
  let only = 'all';
  let shown = []; // the slots that are asked for
  const board = makeBoard(ui, press);

  async function load() {
    let wants;
    [goal, wants, book] = await Promise.all([engine.card('goal', id).then(refilled), engine.list('want'), readSeen(engine)]);
    choose(only);
    wanted = new Map(wants.filter((one) => one.goal === id).map((one) => [one.slot, one]));
    ui.update();
    if (!goal) return;
    const cards = async (ids) => (await Promise.all(ids.map((coin) => engine.card('coin', coin)))).filter(Boolean);
    spare = await cards(goal.spare.slice(0, SHOWN));
    unclear = new Map((await cards([...new Set(goal.unclear.map((one) => one.coin))].slice(0, SHOWN))).map((card) => [card.id, card]));
    ui.update();
  }
  load();
  return { title: 'Set', changed: load, view, close };

  function close() {
    board.close();
    hideCosts();
  }

  function choose(which) {
    only = which;
    shown = goal?.slots.filter(FITS[only]) ?? [];
    ui.update();
  }

  async function press(slot) {
    const coin = slot.coin ? await engine.card('coin', slot.coin.id) : null;
    ui.sheet(slot.title, () => about(slot, coin));
  }

  function want(slot) {
    const [from, to] = slot.upgrade ?? [slot.grade_from ?? '', slot.grade_to ?? ''];
    const note = [slot.issues?.length ? slot.issues.join(', ') : '', slot.strike === 'proof' ? 'proof' : slot.strike === 'business' ? 'business strike' : '', slot.problem_free ? 'without problems' : '', slot.upgrade ? `better than the ${slot.coin.grade} in the slot` : ''].filter(Boolean).join('; ');
    ui.closeSheet();
    ui.go(handTo('/wants/new', { goal: id, slot: slot.key, types: slot.types, denom: slot.types[0]?.split('/')[0] ?? '', years: slot.years ?? '', grade_from: from, grade_to: to, note: note && note[0].toUpperCase() + note.slice(1) }));
  }

  function note(slot, for_) {
    ui.closeSheet();
    const type = slot.types.length === 1 ? slot.types[0] : for_?.type ?? '';
    ui.go(handTo('/seen/new', { denom: type.split('/')[0] ?? '', type, year: /^\d{4}$/.test(slot.years ?? '') ? slot.years : '', want: for_?.id ?? '' }));
  }

  function about(slot, coin) {
    const own = goal.own?.costs?.[slot.coin?.id];
    const its = wanted.get(slot.key);
    const seen = seenFor(its ?? { types: slot.types, years: slot.years, id: '' }, book.sightings);
    const [words, sign, tone] = standing(slot, its);
    const spares = spare.filter((one) => slot.types.includes(one.type));
    const says = goal.unclear.filter((one) => one.slot === slot.key && unclear.has(one.coin));
    return html`<div class="gap slot-sheet">
      <p class="state ${tone}">${icon(sign)}${words}</p>
      <p><b>Asked for:</b> ${asks(slot) || 'any grade'}.${slot.types.length > 1 ? html` <span class="soft">Any of ${count(slot.types.length, 'type')} serves.</span>` : nothing}${slot.note ? html`<br><span class="soft small">${slot.note}</span>` : nothing}</p>
      ${slot.coin ? html`<div class="stack"><h3>What fills it</h3><ul class="rows inner">${coin ? coinRow(coin, engine) : html`<li><a class="coin-row" href=${`/c/${slot.coin.id}`}><span class="what">${slot.coin.dateText} ${slot.coin.grade}</span></a></li>`}</ul>
        ${goal.own && own !== undefined ? html`<p class="row wrap">${costButton(ui)}${costsHidden() ? nothing : own === null ? html`<span class="soft">cost not known</span>` : html`<span class="money">${show(own, engine.state.currency)}</span>`}</p>` : nothing}</div>` : nothing}
      ${slot.upgrade ? html`<p class="row">${icon('high')}<span>Better would be ${gradeSpan({ grade_from: slot.upgrade[0], grade_to: slot.upgrade[1] })}.</span></p>` : nothing}
      ${slot.better ? html`<p>You own a better one; it fills another slot. <a href=${`/c/${slot.better}`}>See it</a></p>` : nothing}
      ${says.map((one) => html`<p class="callout warn">${icon('unsure')}<span><a href=${`/c/${one.coin}`}>${unclear.get(one.coin).title}, ${unclear.get(one.coin).dateText}</a> would fill it, but it ${one.why}.</span></p>`)}
      ${spares.length ? html`<div class="stack"><h3>Spare</h3><ul class="rows inner">${spares.map((one) => coinRow(one, engine))}</ul></div>` : nothing}
      ${its ? html`<ul class="menu"><li><a href=${`/wants/${its.id}`}>${icon('wants')}<span><b>On the want list</b><small>${gradeSpan(its)}</small></span>${icon('on')}</a></li></ul>` : nothing}
      ${seen.length ? html`<div class="stack"><h3>Where it was seen</h3><ul class="rows inner">${seen.slice(0, 6).map((one) => seenRow(ui, one, book))}</ul></div>` : nothing}
      <div class="row wrap">${engine.state.role === 'owner' && !its && (!slot.coin || slot.upgrade) ? html`<button class="button main grow" @click=${() => want(slot)}>${icon('wants')}Put it on the want list</button>` : nothing}
        <button class="button grow" @click=${() => note(slot, its)}>${icon('eye')}Seen here</button></div></div>`;
  }

  function view() {
    const bar = head(ui, { title: goal?.name || 'Set', back: '/sets' });
    if (goal === undefined) return bar;
    if (goal === null) return html`${bar}<div class="body gap"><p>This set is no longer in the book.</p><a class="button" href="/sets">To the sets</a></div>`;
    const tied = goal.own && !costsHidden();
    return html`${bar}<div class="body gap">
      <p class="set-sum"><b class="figures">${goal.filled} of ${goal.slots.length}</b> filled${goal.spares ? `, ${goal.spares} spare` : ''}${tied ? html`, <span class="money">${show(goal.own.cost, engine.state.currency)}</span> tied up${goal.own.unknown ? ` and ${count(goal.own.unknown, 'coin')} of unknown cost` : ''}` : nothing}</p>
      ${goal.own ? html`<div class="set-do"><a class="chip" href=${`/plan/${id}`}>${icon('sell')}Plan for a budget</a>${costButton(ui, 'what it cost')}</div>` : nothing}
      ${segments('only', only, VIEWS, (value) => choose(value || 'all'), 'Which slots')}
      ${shown.length ? board.view(shown, wanted) : html`<p class="soft">${only === 'open' ? 'Every slot is filled.' : 'No filled slot asks for better.'}</p>`}
      ${spare.length && only === 'all' ? html`<section class="panel"><header><h2>Spare</h2></header><p class="soft small">Accepted by a slot that a better coin fills, or one that costs less.</p><ul class="rows inner">${spare.map((one) => coinRow(one, engine))}</ul>
        ${goal.spares > spare.length ? html`<p class="soft small">and ${count(goal.spares - spare.length, 'more coin')}</p>` : nothing}</section>` : nothing}
      ${goal.note ? html`<p class="note-text">${goal.note}</p>` : nothing}
      <p class="soft small">${goal.here ? 'With what this phone has entered; the desk has not answered yet.' : 'As the desk worked it out at the last sync.'}</p>
    </div>`;
  }
}
