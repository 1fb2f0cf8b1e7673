// The stock: search as you type, three filters, rows that look like holders.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { coinRow } from '../parts/coin-row.js';
import { capital, count, HELD, STATES } from '../parts/words.js';
import { holder } from '../parts/holder.js';
import { options } from '../parts/options.js';
import { readDraft } from '../parts/draft.js';

const PAGE = 40;
const START = { state: 'in stock', place: '', denom: '' };

export function open(ui) {
  const { engine } = ui;
  let text = '';
  let pick = { ...START };
  let limit = PAGE;
  let found = null; // {rows, total}
  let elsewhere = 0; // how many more would be found without filters
  let turn = 0;
  let asked = false;

  function ask() {
    if (asked) return;
    asked = true;
    queueMicrotask(search); // not the next frame: the drawing waits for one itself
  }

  async function search() {
    asked = false;
    const mine = ++turn;
    const answer = await engine.search(text, { ...pick, limit });
    if (mine !== turn) return;
    found = answer;
    ui.update();
    if (!filtered() || answer.total >= PAGE) elsewhere = 0;
    else setTimeout(beyond, 250, mine, answer.total);
  }

  // Once the typing rests: what the filters hide.
  async function beyond(mine, total) {
    if (mine !== turn) return;
    const all = await engine.search(text, { limit: 1 });
    if (mine !== turn) return;
    elsewhere = all.total - total;
    ui.update();
  }

  function filtered() {
    return Boolean(pick.state || pick.place || pick.denom);
  }

  function set(change) {
    pick = { ...pick, ...change };
    limit = PAGE;
    ui.closeSheet();
    ask();
  }

  function type(event) {
    text = event.target.value;
    limit = PAGE;
    ask();
  }

  ask();
  return { title: 'Stock', changed: ask, view, beside };

  function view() {
    const begun = readDraft('deals')?.length;
    return html`${head(ui, { title: engine.state.bookName || 'Stock', extra: html`<a class="button plain" href="/deal">${icon('sync')}${begun ? html`${count(begun, 'deal')}<span class="hide"> begun</span>` : 'Deal'}</a>` })}
      <div class="finder">
        <div class="search">${icon('search')}
          <input type="search" aria-label="Search the stock" placeholder="Type, date, grade, ID, note" .value=${text} @input=${type}
            autocomplete="off" autocapitalize="none" spellcheck="false" enterkeyhint="search">
          ${text ? html`<button class="round" aria-label="Clear the search" @click=${() => { text = ''; ask(); }}>${icon('close')}</button>` : nothing}
        </div>
        <div class="chips" role="group" aria-label="Filters">
          ${chip('State', pick.state ? capital(pick.state) : 'All states', pick.state !== START.state, stateSheet)}
          ${chip('Denomination', denomName(pick.denom) || 'All denominations', pick.denom, denomSheet)}
          ${chip('Place', pick.place || 'All places', pick.place, placeSheet)}
        </div>
      </div>
      <div class="body rows-body">
        ${found === null ? nothing : found.total === 0 ? empty() : html`
          <p class="found soft small" role="status">${count(found.total, 'coin')}${text ? ' found' : ''}</p>
          <ul class="rows">${repeat(found.rows, (row) => row.id, (row) => coinRow(row, engine))}</ul>
          ${found.total > found.rows.length ? html`<button class="button wide" @click=${() => { limit += 3 * PAGE; ask(); }}>
            Show more (${(found.total - found.rows.length).toLocaleString('en-US')} left)</button>` : nothing}
          ${elsewhere > 0 ? html`<p class="tail"><button class="button plain" @click=${showAll}>${count(elsewhere, 'more coin')} outside these filters</button></p>` : nothing}`}
      </div>`;
  }

  function showAll() {
    set({ state: '', place: '', denom: '' });
  }

  function empty() {
    if (elsewhere > 0) {
      return html`<div class="empty">${holder({ open: true, size: 'medium' })}<h2>None with these filters</h2>
        <button class="button main" @click=${showAll}>Show ${count(elsewhere, 'coin')} outside them</button></div>`;
    }
    if (text) {
      return html`<div class="empty">${holder({ open: true, size: 'medium' })}<h2>No coin fits “${text}”</h2>
        <p>Every word must be found in the type, date, mint, grade, ID, place or a note.</p>
        <button class="button" @click=${() => { text = ''; ask(); }}>Clear the search</button></div>`;
    }
    return html`<div class="empty">${holder({ open: true, size: 'medium' })}<h2>No coins yet</h2>
      <p>Record a purchase here, or bring a list in at the desk.</p><a class="button main" href="/buy">${icon('buy')}Record a purchase</a></div>`;
  }

  function chip(label, now, on, press) {
    return html`<button class="chip ${on ? 'on' : ''}" @click=${press} aria-haspopup="dialog"><span class="hide">${label}: </span>${now}${icon('down')}</button>`;
  }

  function denomName(key) {
    return engine.reference?.denominations?.find((one) => one.key === key)?.name;
  }

  function stateSheet() {
    const states = [...HELD, ...Object.keys(STATES).filter((one) => !HELD.includes(one))];
    ui.sheet('State', () => options([['', 'All states'], ...states.map((one) => [one, capital(one), STATES[one].sign])], pick.state, (state) => set({ state })));
  }

  function denomSheet() {
    const all = engine.reference?.denominations ?? [];
    ui.sheet('Denomination', () => options([['', 'All denominations'], ...all.map((one) => [one.key, one.name])], pick.denom, (denom) => set({ denom })));
  }

  async function placeSheet() {
    const places = await engine.places();
    ui.sheet('Place', () => options([['', 'All places'], ...places.map((one) => [one, one])], pick.place, (place) => set({ place })));
  }

  function beside() {
    return html`<div class="empty beside">${holder({ open: true, size: 'medium' })}<h2>Choose a coin</h2>
      <p class="soft">Its card opens here. With a camera, scan its holder instead.</p><a class="button" href="/buy">${icon('buy')}Record a purchase</a></div>`;
  }
}
