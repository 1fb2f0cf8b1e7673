// What does not agree in a count: each difference with its likely story and the actions that settle it.
import { html, nothing, repeat } from '../parts/html.js';
import { goOnAt } from '../parts/go-on.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { area, makeForm } from '../parts/field.js';
import { showTime, today } from '../parts/dates.js';
import { chosenShow } from '../parts/show-field.js';
import { coinTitle } from '../parts/slip.js';
import { undoLast } from '../parts/undo.js';
import { count, showId } from '../parts/words.js';
import * as floor from '../engine/at-show.js';
import { differencesOf } from '../floor/differences.js';
import { adopt, flush, put } from '../floor/queue.js';

const KINDS = {
  missing: 'Not counted', gone: 'Counted, but gone by the book', 'never packed': 'Counted, but never packed',
  unknown: 'Unknown label', place: 'In another box', twice: 'Perhaps one label on two coins',
};
const FORMS = { sale: ({ coin }) => `/c/${coin}/sell`, return: ({ coin, of }) => `/c/${coin}/return/${of}`, purchase: ({ coin }) => `/c/${coin}/buy` };
const OWNERS = ['settle', 'void'];
const LISTED = 50;

/** A sheet in which a difference is explained in words. */
export function explainSheet(ui, body) {
  const form = makeForm(ui, { note: '' });
  const record = (event) => {
    event.preventDefault();
    const note = form.values.note.trim();
    if (!note) { form.fail({ note: 'Say in a few words how the difference came about.' }); return; }
    form.run(async () => {
      await ui.engine.record('settle', { ...body, note });
      ui.closeSheet();
      ui.say('Kept with the difference.');
    });
  };
  ui.sheet('Explain it in words', () => html`<form class="gap" @submit=${record} novalidate>${area(form, 'note', 'What happened', { rows: 3, max: 500 })}
    <button class="button main wide" type="submit">${icon('fits')}Keep this</button></form>`);
}

export function open(ui, _, { path }) {
  const { engine } = ui;
  const stock = path === '/count/differences';
  let show;
  let done = null;
  let cards = new Map();
  let others = []; // rounds of the same day that others began
  let all = false; // those that explain themselves are listed, too
  let turn = 0;
  load();
  return { title: 'Differences', view, changed: load };

  async function load() {
    const mine = ++turn;
    await adopt(engine).catch((error) => ui.say(error.message, { tone: 'bad' }));
    const at = stock ? null : chosenShow(await engine.list('show'));
    const id = at?.id ?? null;
    const take = async (asking) => {
      if (!at && !stock) return [null, new Map(), []];
      const found = await differencesOf(engine, id, asking);
      const ids = [...new Set(found.differences.map((one) => one.coin))];
      const known = new Map(await Promise.all(ids.map(async (coin) => [coin, await engine.card('coin', coin)])));
      const rounds = await floor.rounds(id);
      const last = rounds.at(-1);
      return [found, known, rounds.filter((one) => one !== last && today(new Date(one.when)) === today(new Date(last.when)))];
    };
    const shown = (read) => {
      if (mine !== turn) return false;
      [show, [done, cards, others]] = [at, read];
      ui.update();
      return true;
    };
    if (shown(await take(false)) && engine.state.online && !engine.state.waiting && !done?.fresh) shown(await take(true));
  }

  async function act(event, one, action) {
    if (action.name === 'settle') { explainSheet(ui, { ...action.body, note: undefined }); return; }
    if (action.asks) { ui.go(FORMS[action.name]({ coin: one.coin, of: action.body.of })); return; }
    const next = event.target.closest('.difference').nextElementSibling?.dataset.key; // one goes on there
    try {
      await engine.record(action.kind, action.body);
      await load();
      goOnAt(() => document.querySelector(`[data-key="${CSS.escape(next ?? '')}"] h3 a`) ?? document.querySelector('.pane.place h1'));
      ui.say(`Recorded: ${action.says.charAt(0).toLowerCase()}${action.says.slice(1)}.`, { act: { text: 'Void', run: () => undoLast(ui) } });
    } catch (error) { ui.say(error.message, { tone: 'bad' }); }
  }

  // What another round of the day saw is entered into this one; each keeps its own.
  async function join(other) {
    for (const [coin, scans] of await floor.scansOf(other.id)) {
      const { place, how } = scans.at(-1);
      put(engine, { kind: 'count', head: { count: done.round, ...(show ? { show: show.id } : {}), ...(place ? { place } : {}) }, list: 'seen', row: { coin, how } }, () => {});
    }
    await flush(engine).then(() => ui.say('Counted into this round.'), (error) => ui.say(error.message, { tone: 'bad' }));
  }

  function view() {
    const bar = head(ui, { title: 'Differences', back: stock ? '/more' : '/show' });
    if (show === undefined) return bar;
    if (!show && !stock) return html`${bar}<div class="body gap"><p>Choose the show first.</p><a class="button main" href="/more/shows">${icon('show')}Choose a show</a></div>`;
    if (!done.round) return html`${bar}<div class="body gap"><p>Nobody has counted yet.</p><a class="button main" href=${stock ? '/count' : '/show/count'}>${icon('scan')}Count</a></div>`;
    const open_ = done.differences.filter((one) => one.open);
    const rest = done.differences.filter((one) => !one.open);
    return html`${bar}<div class="body gap">
      <dl class="ledger" id="count-sums"><div><dt>Expected</dt><dd>${done.expected}</dd></div><div><dt>Not counted</dt><dd>${done.missing ? `−${done.missing}` : 0}</dd></div>
        <div><dt>Unexpected</dt><dd>${done.unexpected}</dd></div><div class="total"><dt>Counted</dt><dd>${done.seen}</dd></div></dl>
      <p class="small soft" id="told-by">${done.sure ? `As the desk tells it, ${showTime(done.said.made)}.` : 'As far as this phone knows; the desk tells the rest at the next contact.'}</p>
      ${others.map((other) => html`<button type="button" class="button" @click=${() => join(other)}>${icon('sync')}Count the round of ${showTime(other.when)} into this one</button>`)}
      ${open_.length ? html`<h2>${count(open_.length, 'difference')} to settle</h2>` : html`<p class="good row" role="status">${icon('fits')}<span>${rest.length ? 'Every difference is explained.' : 'Everything agrees.'}</span></p>`}
      <div>${repeat(open_.slice(0, LISTED), (one) => one.key, difference)}</div>
      ${open_.length > LISTED ? html`<p class="soft">And ${count(open_.length - LISTED, 'more difference')}: settle some, and the rest follows.</p>` : nothing}
      ${rest.length ? html`<button type="button" class="button plain left" aria-expanded=${String(all)} @click=${() => { all = !all; ui.update(); }}>${icon(all ? 'close' : 'down')}${count(rest.length, 'difference')} explained</button>
        ${all ? html`<div>${repeat(rest.slice(0, LISTED), (one) => one.key, difference)}</div>` : nothing}` : nothing}
    </div>`;
  }

  function difference(one) {
    const card = cards.get(one.coin);
    const actions = one.actions.filter(({ kind }) => engine.state.role === 'owner' || !OWNERS.includes(kind));
    return html`<article class="difference" data-key=${one.key}>
      <p class="state ${one.open ? 'warn' : 'good'}">${icon(one.open ? 'warn' : 'fits')}${KINDS[one.kind]}${one.open ? '' : one.explained ? ', explains itself' : ', settled'}</p>
      <h3>${card ? html`<a href=${`/c/${one.coin}`}>${coinTitle(card)}</a>` : 'A label'} <span class="id soft small">${showId(one.coin)}</span></h3>
      <p>${one.story}</p>
      ${one.settled === null ? nothing : html`<p class="soft">Explained: ${one.settled}</p>`}
      ${one.open && actions.length ? html`<div class="row wrap">${actions.map((action) => html`<button type="button" class="button" @click=${(event) => act(event, one, action)}>${action.says}</button>`)}</div>` : nothing}
    </article>`;
  }
}
