// A coin's card: what it is, what it costs, how we know it, where it has been.
import { idle } from '../engine/idle.js';
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { options } from '../parts/options.js';
import { coinTop } from '../parts/coin-top.js';
import { coinMoney } from '../parts/coin-money.js';
import { checkSummary } from '../parts/coin-checks.js';
import { coinPhotos } from '../parts/coin-photos.js';
import { coinHistory } from '../parts/coin-history.js';
import { coinNotes } from '../parts/coin-notes.js';
import { backWords, CAN, doings } from '../parts/coin-doings.js';
import { salesOf } from '../parts/coin-sales.js';
import { hideCosts } from '../parts/discretion.js';
import { readWaiting } from '../parts/photo-url.js';
import { unknown } from '../parts/unknown-label.js';
import { undoLast } from '../parts/undo.js';
import { ago, showTime } from '../parts/dates.js';
import { count, HELD, showId } from '../parts/words.js';

export function open(ui, { id: typed }) {
  const { engine } = ui;
  const read = engine.parseId(typed);
  const id = read.id ?? typed;
  let card; // undefined: being read; null: not here
  let blank = null;
  let shows = [];
  let whole = false; // what stands below the money comes a frame later: who and how much is what a customer waits for
  let sales = []; // those that can be given back
  let worth = null; // {part, held}: loaded after the card, for the owner alone
  let told;
  const screen = { title: 'Coin', changed: load, view, close: hideCosts, read: new Promise((done) => { told = done; }) };

  async function load() {
    if (read.error) { card = null; told(); ui.update(); return; }
    const found = await engine.card('coin', id);
    if (!found) blank = await engine.card('blank', id);
    await readWaiting(engine, [...(found?.photos ?? []), ...Object.values(found?.own?.receipts ?? {}).flat().map((photo) => ({ photo, local: true }))]);
    sales = found ? salesOf(found, found.own || found.state !== 'sold' ? [] : await engine.entries()) : [];
    card = found;
    screen.title = card ? `${card.title} ${card.dateText}` : showId(id);
    told();
    ui.update();
    if (!whole) await frames();
    whole = true;
    ui.update();
    if (card?.own && !shows.length) {
      shows = await engine.list('show');
      ui.update();
    }
    if (card?.own) {
      const part = await import('../parts/coin-worth.js');
      worth = { part, held: await part.readWorth(card) };
      ui.update();
    }
    idle(() => import('./deal.js').catch(console.error)); // it may be sold next
  }

  screen.ready = load();
  return screen;

  function view() {
    if (card === undefined) return html`${head(ui, { title: '', back: '/' })}`;
    if (card === null) return unknown(ui, { id, error: read.error, blank });
    const type = engine.reference?.types?.[card.type];
    return html`${head(ui, { title: showId(card.id), back: '/' })}
      <div class="body coin">
        ${card.waiting?.length ? waits() : nothing}
        ${card.looks ? html`<div class="callout warn">${icon('warn')}<p>The desk keeps two versions of something here. It waits under <b>Needs a look</b> at the desk.</p></div>` : nothing}
        ${coinTop(ui, card)}
        ${coinMoney(ui, card)}
        ${whole ? rest(type) : nothing}
      </div>${actions()}`;
  }

  function rest(type) {
    return html`${worth && card.own ? worth.part.coinWorth(ui, card, worth.held) : nothing}
      ${checkSummary(card, type, engine.reference)}
      ${coinPhotos(ui, card)}
      ${coinHistory(ui, card, shows)}
      ${coinNotes(card)}
      <p class="age soft small">${age()}</p>`;
  }

  function age() {
    const at = engine.state.lastSync;
    if (!at) return 'Not compared with the desk yet.';
    return `As the desk had it at ${showTime(at)} (${ago(at)})${card.waiting?.length ? ', with what waits on this phone on top' : ''}.`;
  }

  function waits() {
    return html`<div class="callout warn">${icon('entries')}<p>${count(card.waiting.length, 'entry', 'entries')} about this coin ${card.waiting.length === 1 ? 'waits' : 'wait'} to be sent.
      <a href="/entries">See what waits</a></p></div>`;
  }

  function actions() {
    const [path, sign, words] = CAN.sell(card) === '' && (card.state === 'in stock' || card.theirs) ? ['sell', 'sell', 'Sell']
      : CAN.back(card) === '' ? ['back', 'undo', backWords(card)[0]] : sales.length ? [`return/${sales[0].fact}`, 'undo', 'Return'] : [];
    return html`<div class="actions"><div class="line">
      ${path ? html`<a class=${`button stacked ${path.startsWith('return') ? '' : 'main'}`} href=${`/c/${id}/${path}`}>${icon(sign)}${words}</a>` : nothing}
      <a class="button stacked" href=${`/c/${id}/note`}>${icon('note')}Note</a>
      <a class="button stacked" href=${`/c/${id}/photo`}>${icon('camera')}Photo</a>
      <a class="button stacked" href=${`/c/${id}/move`}>${icon('move')}Move</a>
      <button class="button stacked" aria-haspopup="dialog" @click=${more}>${icon('more')}More</button>
    </div></div>`;
  }

  function more() {
    const owner = Boolean(card.own);
    const list = [
      ...(CAN.sell(card) === '' && card.state !== 'in stock' && !card.theirs ? [['sell', 'Sell', 'sell', `It is ${card.state}`]] : []),
      ...(HELD.includes(card.state) && !card.theirs ? [['trade', 'Trade it', 'sync', 'It goes out, something comes in']] : []),
      ...doings(card, sales),
      ['checks', 'Identification checklist', 'fits'],
      ['price', owner ? 'Change the asking price or floor' : 'Change the asking price', 'sell'],
      ['undo', 'Void the last entry', 'undo', 'The last one made on this phone, of any coin'],
      ['copy', 'Copy the ID', 'stock'],
    ];
    ui.sheet('More for this coin', () => options(list, null, async (what) => {
      ui.closeSheet();
      if (what === 'undo') await undoLast(ui);
      else if (what !== 'copy') ui.go(`/c/${id}/${what}`);
      else {
        await navigator.clipboard?.writeText(showId(id)).then(() => ui.say('ID copied.'), () => ui.say(`The ID is ${showId(id)}.`));
      }
    }));
  }
}

// Until a frame has been shown; a page that nobody sees has none.
const frames = () => new Promise((done) => {
  if (document.hidden) done();
  else requestAnimationFrame(() => setTimeout(done));
});
