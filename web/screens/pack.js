// Packing for a show: scanned out in a row, a whole place at once, or picked from the stock; and taken out again.
import { goOnAt } from '../parts/go-on.js';
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { makeForm, text as textField } from '../parts/field.js';
import { chosenShow } from '../parts/show-field.js';
import { coinTitle } from '../parts/slip.js';
import { undoLast } from '../parts/undo.js';
import { READY, typedLabel, verdict } from '../parts/verdict.js';
import { count, showId } from '../parts/words.js';
import { makeScanner } from '../scan/scanner.js';
import * as floor from '../engine/at-show.js';
import { adopt, flush, put } from '../floor/queue.js';
import { ready, signal } from '../floor/signal.js';

const MOST = 400; // coins in one entry
const LISTED = 30;

export function open(ui) {
  const { engine } = ui;
  const form = makeForm(ui, { box: '' });
  let show;
  let packed = new Map(); // coin → {card, box} of what is packed, and those put in the queue
  let places = []; // [[place, ids not packed]…]
  let found = [];
  let text = '';
  let view = 'main'; // main, scan, type
  let out = false; // taken out, rather than packed
  let told = READY;
  let turn = 0;
  const failed = (error) => ui.say(`${error.message} The scans are kept and tried again.`, { tone: 'bad' });
  const scanner = makeScanner(ui, { found: scanned, words: 'Label after label' });
  addEventListener('click', ready);
  load();
  return { title: 'Pack', view: draw, close, changed: () => { if (view === 'main') load(); }, get full() { return view !== 'main'; } };

  async function load() {
    const mine = ++turn;
    await adopt(engine).catch(failed);
    const at = chosenShow(await engine.list('show'));
    const [coins, { rows }] = at ? await Promise.all([floor.coinsAt(at.id), engine.search('', { state: 'in stock', limit: 1e6 })]) : [new Map(), { rows: [] }];
    if (mine !== turn) return;
    show = at;
    packed = new Map([...coins].filter(([, coin]) => coin.card.packed?.show === at?.id && coin.here).map(([id, { card, box }]) => [id, { card, box }]));
    const by = new Map();
    for (const row of rows) if (row.place && !packed.has(row.id)) (by.get(row.place) ?? by.set(row.place, []).get(row.place)).push(row.id);
    places = [...by].sort((a, b) => a[0].localeCompare(b[0], 'en', { numeric: true }));
    await search();
  }

  async function search() {
    const typed = text;
    found = typed.trim() ? (await engine.search(typed, { state: 'in stock', limit: LISTED })).rows : [];
    if (typed === text) ui.update();
  }

  function close() {
    scanner.stop();
    removeEventListener('click', ready);
    flush(engine).catch(failed);
  }

  function headOf(undo, box) {
    return { show: show.id, ...(undo ? { undo: true } : box ? { box } : {}) };
  }

  async function all(ids, { undo = false, box = form.values.box.trim(), what }) {
    try {
      for (let at = 0; at < ids.length; at += MOST) await engine.record('pack', { ...headOf(undo, box), coins: ids.slice(at, at + MOST) });
      ui.say(`${what ?? count(ids.length, 'coin')} ${undo ? 'taken out' : 'packed'}.`, { act: { text: 'Void', run: () => undoLast(ui) } });
    } catch (error) { ui.say(error.message, { tone: 'bad' }); }
  }

  function scanned(read) {
    const { id, error } = engine.parseId(read);
    if (id) take(id);
    else tell('unknown', 'No label', error);
    return false;
  }

  async function take(id) {
    const card = packed.get(id)?.card ?? await engine.card('coin', id);
    if (!card) return tell('unknown', 'Unknown label', `No coin on this phone has ${showId(id)}.`);
    const box = form.values.box.trim();
    const held = packed.get(id);
    if (out ? !held : held && (!box || held.box === box)) return tell('again', out ? 'Not packed' : 'Already packed', coinTitle(card));
    if (!out && !floor.isHere(card)) return tell('unexpected', 'Not here', `${coinTitle(card)}. The book says ${card.state}.`);
    if (out) packed.delete(id);
    else packed.set(id, { card, box });
    put(engine, { kind: 'pack', head: headOf(out, box), list: 'coins', row: id }, failed);
    return tell('expected', out ? 'Taken out' : 'Packed', coinTitle(card));
  }

  function tell(what, word, more) {
    signal(what);
    told = { what, word, more };
    ui.update();
  }

  function turnTo(to) {
    [view, text, told] = [to, '', READY];
    if (to === 'type') goOnAt(() => document.getElementById('f-id'));
    if (to === 'main') {
      scanner.stop();
      flush(engine).catch(failed).then(load);
    }
    ui.update();
  }

  function draw() {
    const bar = head({ ...ui, back: (path) => (view === 'main' ? ui.back(path) : turnTo('main')) }, { title: 'Pack', back: '/show' });
    if (show === undefined) return bar;
    if (!show) return html`${bar}<div class="body gap"><p>Choose the show first.</p><a class="button main" href="/more/shows">${icon('show')}Choose a show</a></div>`;
    return view === 'main' ? main(bar) : scan(bar);
  }

  function scan(bar) {
    const box = form.values.box.trim();
    return html`${bar}<div class="scanner">
      <div class="tally"><span><b>${packed.size}</b> packed</span><small>${out ? 'taking out' : box ? `into ${box}` : 'into no box'}</small></div>
      ${scanner.view(nothing)}${verdict(told, scanner.blind)}
      ${view === 'type' ? typedLabel(engine, text, { words: out ? 'Take it out' : 'Pack it', leave: () => turnTo('scan'), set: (value) => { text = value; ui.update(); }, take: (id) => { text = ''; take(id); } })
        : html`<div class="tools"><button type="button" class="button dark" aria-pressed=${String(out)} @click=${() => { out = !out; told = READY; ui.update(); }}>${icon(out ? 'undo' : 'move')}${out ? 'Taking out' : 'Packing'}</button>
          <button type="button" class="button dark" @click=${() => turnTo('type')}>${icon('keys')}Type</button>${scanner.torchButton()}
          <button type="button" class="button main grow" @click=${() => turnTo('main')}>${icon('fits')}Done</button></div>`}</div>`;
  }

  function main(bar) {
    const boxes = new Map();
    for (const [id, one] of packed) (boxes.get(one.box) ?? boxes.set(one.box, []).get(one.box)).push({ id, ...one });
    return html`${bar}<div class="fill"><div class="body gap">
      <p><b>${count(packed.size, 'coin')}</b> packed for ${show.name || 'this show'} and still here.</p>
      ${textField(form, 'box', 'Into box', { max: 60, list: [...new Set([...boxes.keys(), ...places.map(([place]) => place)])].filter(Boolean), help: 'For what you pack from now on; may stay empty.' })}
      <div class="search">${icon('search')}<input type="search" aria-label="Pick from the stock" placeholder="Pick: type, date, grade, ID" .value=${text} autocomplete="off" @input=${(event) => { text = event.target.value; search(); }}></div>
      ${text.trim() ? html`<ul class="packed">${repeat(found, (row) => row.id, (row) => html`<li><span>${coinTitle(row)}<small>${[showId(row.id), row.place].filter(Boolean).join(', ')}</small></span>
        ${packed.has(row.id) ? html`<button type="button" class="button" @click=${() => all([row.id], { undo: true })}>${icon('undo')}Take out</button>` : html`<button type="button" class="button" @click=${() => all([row.id], {})}>${icon('add')}Pack</button>`}</li>`)}</ul>
        ${found.length ? nothing : html`<p class="soft" role="status">No coin in stock fits.</p>`}` : html`
      ${places.length ? html`<section><h2>All of a place</h2><ul class="packed">${places.map(([place, ids]) => html`<li><span>${place}<small>${count(ids.length, 'coin')} not packed</small></span>
        <button type="button" class="button" aria-label=${`Pack all of ${place}`} @click=${() => all(ids, { box: form.values.box.trim() || place })}>${icon('add')}Pack all</button></li>`)}</ul></section>` : nothing}
      ${boxes.size ? html`<h2>What is packed</h2>` : nothing}
      ${[...boxes].sort().map(([box, coins]) => html`<details class="more"><summary>${box || 'In no box'}: ${count(coins.length, 'coin')}</summary>
        <ul class="packed">${coins.slice(0, 100).map(({ id, card }) => html`<li><span>${coinTitle(card)}<small>${showId(id)}</small></span><button type="button" class="button" aria-label=${`Take out ${showId(id)}`} @click=${() => all([id], { undo: true })}>${icon('undo')}Take out</button></li>`)}</ul>
        <button type="button" class="button plain left" @click=${() => all(coins.map(({ id }) => id), { undo: true, what: box || 'What is in no box' })}>${icon('undo')}Take all of it out</button></details>`)}`}
    </div><div class="actions"><div class="line"><button type="button" class="button main grow" @click=${() => turnTo('scan')}>${icon('scan')}Scan coins out</button></div></div></div>`;
  }
}
