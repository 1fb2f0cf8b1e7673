// The show one is at: cash in hand, budget left, expenses, and the ways to packing, count, drawer and close.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { showDate, today } from '../parts/dates.js';
import { show as money } from '../parts/money.js';
import { chosenShow } from '../parts/show-field.js';
import { MOVES, moneySheet, openingSheet } from '../parts/show-money.js';
import { count } from '../parts/words.js';
import * as floor from '../engine/at-show.js';
import { adopt } from '../floor/queue.js';
import { lastDay, stageOf } from '../floor/stage.js';
import { link } from './more.js';

// What is next at a show, by its day: [address, sign, words]; the page's one main action.
const NEXT = {
  before: ['/show/pack', 'move', 'Pack for the show'],
  during: ['/deal', 'sync', 'Sell, buy or trade'], // scanning is in the bar below, always
  count: ['/show/count', 'scan', 'Count what came home'],
  close: ['/show/close', 'show', 'Close the show'],
};

export function open(ui) {
  const { engine } = ui;
  let show; // undefined: being read
  let now = null; // the money of the show
  let counted = false;
  let turn = 0;
  adopt(engine).catch((error) => ui.say(error.message, { tone: 'bad' }));
  load();
  return { get title() { return show?.name || 'Show'; }, view, changed: load };

  async function load() {
    const mine = ++turn;
    const found = chosenShow(await engine.list('show'));
    const [sums, rounds] = found ? await Promise.all([floor.money(found), floor.rounds(found.id)]) : [null, []];
    if (mine !== turn) return;
    [show, now, counted] = [found, sums, rounds.some((one) => today(new Date(one.when)) >= lastDay(found))];
    ui.update();
  }

  function view() {
    const bar = head(ui, { title: show?.name || 'Show', back: '/more' });
    if (show === undefined) return bar;
    if (!show) return html`${bar}<div class="body gap"><p>Choose the show you are at first.</p><a class="button main" href="/more/shows">${icon('show')}Choose a show</a></div>`;
    const days = show.starts && show.ends && show.starts !== show.ends ? `${showDate(show.starts)} to ${showDate(show.ends)}` : showDate(show.starts);
    const next = NEXT[stageOf(show, today(), { counted, owner: engine.state.role === 'owner' })];
    return html`${bar}<div class="fill"><div class="body gap">
      <div class="row apart"><p class="soft">${[days, show.place, show.table && `table ${show.table}`].filter(Boolean).join(', ')}</p><a class="button plain" href="/more/shows">Change</a></div>
      ${show.closed ? html`<div class="callout good">${icon('fits')}<p><b>Closed on ${showDate(show.closed)}.</b> What does not agree stays under its differences.</p></div>` : nothing}
      ${now ? cash() : nothing}
      <ul class="menu">
        ${now ? link('/plan', 'wants', 'Plan the budget', 'What to buy of the wants or a set with what is left') : nothing}
        ${link('/show/pack', 'move', 'Pack', show.packed ? `${count(show.packed, 'coin')} packed, as the desk knows` : 'Which coins go to the show')}
        ${link('/show/count', 'scan', 'Count', 'Scan what is there, fast, in a row; several phones at once')}
        ${link('/show/differences', 'unsure', 'Differences', 'What does not agree, how it may have come, what settles it')}
        ${now ? link('/show/drawer', 'sell', 'Cash drawer', now.drawer ? `Counted on ${showDate(now.drawer.date)}: ${money(now.drawer.cents, engine.state.currency)}` : 'Counted by coin and note') : nothing}
        ${now ? link('/show/close', 'show', 'Close of show', show.closed ? 'Its figures; open it again' : 'Stock, cash and result') : nothing}
      </ul>
    </div>${next ? html`<div class="actions"><div class="line"><a class="button main grow" href=${next[0]}>${icon(next[1])}${next[2]}</a></div></div>` : nothing}</div>`;
  }

  function cash() {
    const said = (cents) => money(cents, engine.state.currency);
    return html`<section class="panel" aria-labelledby="cash-title"><header><h2 id="cash-title">Money</h2>
        <button type="button" class="button plain" @click=${() => openingSheet(ui, show, now)}>Opening cash, budget</button></header>
      <dl class="figures3">
        <div><dt>Cash in hand</dt><dd class="lead"><span class="money" id="cash-in-hand">${said(now.cash)}</span></dd></div>
        <div><dt>Budget left</dt><dd class="lead">${now.left === null ? html`<span class="soft">not set</span>` : html`<span class="money ${now.left < 0 ? 'bad' : ''}" id="budget-left">${said(now.left)}</span>`}</dd></div>
        <div><dt>Spent on coins</dt><dd class="lead"><span class="money">${said(now.spent)}</span></dd></div>
      </dl>
      <p class="small soft">Opening cash ${said(now.float ?? 0)}.${engine.state.waiting ? ` With ${count(engine.state.waiting, 'entry', 'entries')} that ${engine.state.waiting === 1 ? 'waits' : 'wait'} on this phone.` : ''}</p>
      <div class="moneys" role="group" aria-label="Money without a coin">${MOVES.map((move) => html`<button type="button" class="button" aria-haspopup="dialog" @click=${() => moneySheet(ui, show, move)}>${icon(move[1])}${move[0]}</button>`)}</div>
    </section>`;
  }
}
