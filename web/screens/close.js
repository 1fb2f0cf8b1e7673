// The close of a show, for its owner: cash, count and result; closed with differences open if need be, and opened again.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { showDate, showTime, today } from '../parts/dates.js';
import { show as money } from '../parts/money.js';
import { chosenShow } from '../parts/show-field.js';
import { coinTitle } from '../parts/slip.js';
import { count } from '../parts/words.js';
import * as floor from '../engine/at-show.js';
import { differencesOf } from '../floor/differences.js';
import { adopt } from '../floor/queue.js';

export function open(ui) {
  const { engine } = ui;
  const { currency } = engine.state;
  let show;
  let now = null;
  let done = null;
  let best = {};
  let turn = 0;
  const said = (cents) => (cents === null || cents === undefined ? '–' : money(cents, currency));
  load();
  return { title: 'Close of show', form: true, view, changed: load, close: hideCosts };

  async function load() {
    const mine = ++turn;
    await adopt(engine).catch((error) => ui.say(error.message, { tone: 'bad' }));
    const at = chosenShow(await engine.list('show'));
    const take = async (asking) => {
      const [sums, found] = at?.own ? [await floor.money(at), await differencesOf(engine, at.id, asking)] : [null, null];
      const named = {};
      for (const name of ['best', 'worst']) {
        const one = found?.said?.close?.[name];
        if (one) named[name] = [await engine.card('coin', one.coin), one.gain];
      }
      if (mine !== turn) return false;
      [show, now, done, best] = [at, sums, found, named];
      ui.update();
      return true;
    };
    if (await take(false) && now && engine.state.online && !engine.state.waiting && !done.fresh) await take(true);
  }

  async function record() {
    const kind = show.closed ? 'show.open' : 'show.close';
    try {
      await engine.record(kind, { show: show.id, date: today() });
      ui.say(kind === 'show.close' ? 'The show is closed.' : 'The show is open again.');
    } catch (error) { ui.say(error.message, { tone: 'bad' }); }
  }

  function view() {
    const bar = head(ui, { title: 'Close of show', back: '/show' });
    if (show === undefined) return bar;
    if (!show) return html`${bar}<div class="body gap"><p>Choose the show first.</p><a class="button main" href="/more/shows">${icon('show')}Choose a show</a></div>`;
    if (!now) return html`${bar}<div class="body gap"><p>Only the owner closes a show.</p></div>`;
    const left = done.differences.filter((one) => one.open).length;
    return html`<div class="fill">${bar}<div class="body gap">
      <h2>${show.name || 'A show'}</h2>
      ${show.closed ? html`<p class="good row">${icon('fits')}<span>Closed on ${showDate(show.closed)}.</span></p>` : nothing}
      <section><h3>Stock</h3>${done.round ? html`<dl class="ledger"><div><dt>Expected</dt><dd>${done.expected}</dd></div><div><dt>Counted</dt><dd>${done.seen}</dd></div></dl>
        <p class="row ${left ? 'warn' : 'good'}">${icon(left ? 'warn' : 'fits')}<span>${left ? html`<a href="/show/differences">${count(left, 'difference')} to settle</a>` : 'Every coin agrees or is explained.'}</span></p>`
        : html`<p class="soft">Not counted. <a href="/show/count">Count</a></p>`}</section>
      <section><h3>Cash</h3><dl class="ledger"><div><dt>Should be there</dt><dd class="money" id="close-cash">${said(now.cash)}</dd></div>
        ${now.drawer ? html`<div><dt>Counted on ${showDate(now.drawer.date)}</dt><dd class="money">${said(now.drawer.cents)}</dd></div>
          <div class="total"><dt>${now.drawer.cents === now.cash ? 'Agrees' : now.drawer.cents > now.cash ? 'Over' : 'Short'}</dt><dd>${said(Math.abs(now.drawer.cents - now.cash))}</dd></div>` : nothing}</dl>
        ${now.drawer ? nothing : html`<p class="soft">The drawer is not counted. <a href="/show/drawer">Count it</a></p>`}</section>
      <section class="panel"><header><h2>Result</h2>${costButton(ui, 'the result')}</header>${costsHidden() ? html`<p class="soft">Profit, margin, best and worst are for your eyes.</p>` : result()}</section>
      <p class="small soft">A show may be closed with differences open; they stay under Needs a look at the desk, where this page is also a PDF and a CSV.</p>
    </div><div class="actions"><div class="line"><button type="button" class="button grow ${show.closed ? '' : 'main'}" @click=${record}>${icon(show.closed ? 'undo' : 'show')}${show.closed ? 'Open it again' : left ? `Close with ${count(left, 'difference')} open` : 'Close the show'}</button></div></div></div>`;
  }

  function result() {
    const close = done.said?.close;
    if (!close) return html`<p class="soft">The desk works it out at the next contact.</p>`;
    return html`<dl class="ledger" id="result">${close.result.map((row) => html`<div class=${row.mark === 'total' ? 'total' : ''}><dt>${row.label}${row.pieces === null ? nothing : html` <span class="soft">${row.pieces}</span>`}</dt><dd>${said(row.cents)}</dd></div>`)}</dl>
      ${close.margin === null ? nothing : html`<p>Margin ${close.margin} %.</p>`}
      ${[['best', 'Best'], ['worst', 'Worst']].map(([name, word]) => (best[name] ? html`<p class="small">${word}: ${best[name][0] ? coinTitle(best[name][0]) : 'a coin'}, ${money(best[name][1], currency, { sign: true })}</p>` : nothing))}
      ${close.wants ? html`<p class="small">${count(close.wants, 'want')} filled.</p>` : nothing}
      <p class="small soft">${done.fresh ? 'As the desk has it' : 'As the desk had it'}, ${showTime(done.said.made)}.${done.fresh ? '' : ' What waits on this phone is not in it.'}</p>`;
  }
}
