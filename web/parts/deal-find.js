// Adding coins to a deal: the camera, a typed ID, or the stock's search. It stays open until all are in.
import { html, nothing, repeat } from './html.js';
import { head } from './head.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { show } from './money.js';
import { count, HELD } from './words.js';
import { makeScanner } from '../scan/scanner.js';

const MOST = 30;
const HINT = 'The ID of a blank label, or of a coin in the book whose purchase is not recorded yet.';

/**
 * A view over the composer. `add(id)` resolves to {done, said}: whether something was added, and a sentence; `has(id)`,
 * `many()` tell what is in the deal; `leave()` closes it. `side`: out, or in, where only a label or an ID can be given.
 */
export function makeFinder(ui, { side, camera, add, has, many, leave, hint = HINT }) {
  const { engine } = ui;
  let text = '';
  let rows = [];
  let told = null; // {done, said}
  let scanning = camera;
  let turn = 0;
  const scanner = makeScanner(ui, { found: (read) => { take(read); return true; }, words: side === 'out' ? 'Hold the label of each coin that goes out in the ring' : 'Hold a blank label in the ring' });
  if (side === 'out' && !camera) search();
  return { view, close: () => scanner.stop(), scanning: () => scanning };

  async function take(read) {
    const { id, error } = engine.parseId(read);
    if (id) navigator.vibrate?.(40);
    told = id ? await add(id) : { done: false, said: error };
    if (told.done) text = '';
    ui.update();
  }

  async function search() {
    const mine = ++turn;
    const found = await engine.search(text, { limit: 4 * MOST });
    if (mine !== turn) return;
    rows = found.rows.filter((row) => HELD.includes(row.state)).slice(0, MOST);
    ui.update();
  }

  function turnTo(on) {
    [scanning, told] = [on, null];
    if (!on) { scanner.stop(); if (side === 'out') search(); }
    ui.update();
  }

  function view() {
    const title = side === 'out' ? 'What goes out' : 'What comes in';
    const bar = head({ ...ui, back: leave }, { title, back: '/deal', close: true });
    const done = html`<button type="button" class="button main grow" @click=${leave}>${icon('fits')}${many() ? `Done, ${count(many(), 'coin')}` : 'Done'}</button>`;
    const said = told ? html`<p class="row ${told.done ? 'good' : 'warn'}" role="status">${icon(told.done ? 'fits' : 'warn')}<span>${told.said}</span></p>` : nothing;
    if (scanning) {
      return html`${bar}<div class="scanner">${scanner.view(told ? told.said : nothing)}
        <div class="tools"><button type="button" class="button dark" @click=${() => turnTo(false)}>${icon('keys')}${side === 'out' ? 'Type or search' : 'Type the ID'}</button>${scanner.torchButton()}${done}</div></div>`;
    }
    const plain = text.replace(/[\s-]/g, '');
    const { id } = plain.length >= 10 ? engine.parseId(text) : {};
    return html`${bar}<form class="fill" @submit=${(event) => { event.preventDefault(); if (text.trim()) take(text); }}>
      <div class="body gap">
        <div class="search">${icon('search')}<input id="f-find" type="search" aria-label=${side === 'out' ? 'Coin ID, or search the stock' : 'Coin ID'} placeholder=${side === 'out' ? 'ID, type, date, grade' : 'ID of the label'} .value=${text}
          autocomplete="off" autocapitalize="characters" spellcheck="false" enterkeyhint="done" @input=${(event) => { text = event.target.value; told = null; if (side === 'out') search(); ui.update(); }}></div>
        ${said}
        ${id ? html`<button class="button wide" type="submit">${icon('add')}Add the coin of this ID</button>` : nothing}
        ${side === 'in' ? html`<p class="soft">${hint}</p>` : html`
        <ul class="options" aria-label="Coins of the stock">${repeat(rows, (row) => row.id, (row) => html`<li><button type="button" aria-pressed=${String(has(row.id))} ?disabled=${has(row.id)} @click=${() => take(row.id)}>
          ${holder({ denom: row.denom, top: mark(row.denom, engine.reference), year: /^\d{4}/.test(row.dateText) ? row.dateText.slice(0, 4) : '' })}
          <span>${row.title}<small class="figures">${row.dateText} ${row.grade} ${row.place}</small></span>
          ${has(row.id) ? html`<span class="good row">${icon('fits')}In</span>` : row.ask === null || row.ask === undefined ? icon('add') : html`<span class="money">${show(row.ask, engine.state.currency, { short: true })}</span>`}</button></li>`)}</ul>
        ${rows.length ? nothing : html`<p class="soft">No coin that is here fits.</p>`}`}
      </div>
      <div class="actions"><div class="line"><button type="button" class="button" @click=${() => turnTo(true)}>${icon('scan')}Scan</button>${done}</div></div></form>`;
  }
}
