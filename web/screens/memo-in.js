// Somebody's coins with us, on memo or on consignment: in the case, never in the value of our stock.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { amount, area, cents, date, makeForm, submit, text, typed } from '../parts/field.js';
import { coinFields, coinValues, readCoin } from '../parts/coin-fields.js';
import { makeCoinView } from '../parts/deal-coin.js';
import { makeFinder } from '../parts/deal-find.js';
import { comingLine } from '../parts/deal-lines.js';
import { dropDraft, keepDraft, readDraft } from '../parts/draft.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { show } from '../parts/money.js';
import { readParties } from '../parts/party.js';
import { slip } from '../parts/slip.js';
import { today } from '../parts/dates.js';
import { count, showId } from '../parts/words.js';
import { undoLast } from '../parts/undo.js';
import { takeOver } from '../naming/kept.js';
import { agreed, agreement } from './memo.js';

const DRAFT = 'memo-in';
const HINT = 'The ID of a blank label, or of a coin that was with you before.';
const blank = () => ({ ...coinValues(), pieces: '' });

export function open(ui, { id: given }) {
  const { engine } = ui;
  const read = given ? engine.parseId(given) : { id: null };
  const { values: named } = takeOver();
  const cards = new Map(); // of coins that were with us before
  let memo = null; // {rows: [{id, drawn, known, values}], values: by field, instead: the refused entry, editing: a coin}
  let form;
  let coin; // the fields of the first coin, while it is alone
  let places = [];
  let refused = null;
  let continued = false;
  let over = null; // what stands over the form: the finder, a coin's fields
  if (!read.error) load();
  return { title: 'In on memo', form: true, view, close, get full() { return over?.scanning?.() ?? false; } };

  async function load() {
    [places, refused] = await Promise.all([engine.places(), mended(ui), readParties(engine)]);
    const draft = readDraft(DRAFT);
    const begun = draft && (refused ? draft.instead === refused.fact.id : !draft.instead && (!given || draft.rows.some((row) => row.id === read.id)));
    continued = Boolean(begun) && !named;
    await take(begun ? draft : refused ? said(refused.fact) : fresh());
    if (!memo.rows.length) await add(read.id ?? engine.newId(), !given);
    if (named && memo.editing) edit(memo.editing, named);
    else if (named) Object.assign(coin.values, Object.fromEntries(Object.entries(named).filter(([name]) => name in coin.values)));
    ui.update();
  }

  function fresh() {
    return { rows: [], instead: null, editing: null, values: { kind: 'consignment', with: '', due: '', date: today(), note: '' } };
  }

  function said({ id: instead, body: { coins, kind, due = '', note = '', date: day, ...body } }) {
    const rows = coins.map(({ coin: key, set = {} }) => ({
      id: key, drawn: false, known: !Object.keys(set).length,
      values: { ...blank(), ...set, year: String(set.year ?? ''), ask: typed(ui, set.ask), floor: typed(ui, set.floor), pieces: set.pieces ? String(set.pieces) : '' },
    }));
    return { rows, instead, editing: null, values: { kind, due, note, date: day, with: body.with ?? '', ...Object.fromEntries(coins.map((row) => [`price-${row.coin}`, typed(ui, row.net)])) } };
  }

  async function take(one) {
    memo = one;
    form = makeForm(ui, memo.values, changed);
    const found = await Promise.all(memo.rows.map((row) => engine.card('coin', row.id)));
    memo.rows.forEach((row, at) => cards.set(row.id, found[at]));
    alone();
  }

  function alone() {
    coin = memo.rows.length ? makeForm(ui, memo.rows[0].values, changed) : null;
  }

  function changed() { keepDraft(DRAFT, memo); }

  function close() {
    leaveOff();
    over?.close();
  }

  function lay(one) {
    over?.close();
    over = one;
    ui.update();
  }

  async function add(id, drawn = false) {
    if (memo.rows.some((row) => row.id === id)) return { done: false, said: 'That coin is in this entry already.' };
    const card = await engine.card('coin', id);
    if (card && !(card.theirs && card.state === 'returned') && memo.rows.length) return { done: false, said: 'This label is on a coin of the book already.' };
    cards.set(id, card);
    memo.rows.push({ id, drawn, known: Boolean(card), values: blank() });
    form.values[`price-${id}`] = '';
    alone();
    if (memo.rows.length > 1) changed();
    if (memo.rows.length > 1 && !card) edit(id);
    return { done: true, said: 'It comes in.' };
  }

  function edit(id, values = {}) {
    const row = memo.rows.find((one) => one.id === id);
    const end = () => { memo.editing = null; delete form.wrong[`coin-${id}`]; changed(); lay(null); };
    if (!row) return;
    Object.assign(row.values, Object.fromEntries(Object.entries(values).filter(([name]) => name in row.values)));
    memo.editing = id;
    lay(makeCoinView(ui, row, { places, changed, keep: end, drop: () => { drop(id); end(); }, where: 'the entry' }));
  }

  function drop(id) {
    memo.rows = memo.rows.filter((row) => row.id !== id);
    delete form.values[`price-${id}`];
    alone();
    changed();
    ui.update();
  }

  function find() {
    lay(makeFinder(ui, { side: 'in', camera: true, add, has: (id) => memo.rows.some((row) => row.id === id), many: () => memo.rows.length, leave: () => lay(null), hint: HINT }));
  }

  async function startOver() {
    dropDraft(DRAFT);
    continued = false;
    await take(fresh());
    await add(read.id ?? engine.newId(), !given);
    ui.update();
  }

  // One row of the entry; what is wrong with it goes to the fields of the coin, or of a list beside its line.
  function rowOf({ id, known, values }, wrong) {
    const net = cents(ui, form, `price-${id}`);
    if (net === null) wrong[`price-${id}`] = 'Give what its owner is to have when it is sold.';
    if (Number.isNaN(net)) wrong[`price-${id}`] = 'That is not an amount of money.';
    if (known) return { coin: id, net };
    const { set, wrong: bad } = readCoin(ui, { values });
    const pieces = values.pieces.trim();
    if (pieces && !/^[1-9]\d{0,5}$/.test(pieces)) bad.pieces = 'Give a number of pieces, at least 1; leave it empty for a single coin.';
    if (memo.rows.length === 1) coin.wrong = bad;
    const [first] = Object.values(bad);
    if (cards.get(id) && memo.rows.length > 1) wrong[`coin-${id}`] = 'This label is on a coin of the book by now; give the coin another label.';
    else if (first) wrong[`coin-${id}`] = first;
    return { coin: id, set: { ...set, ...(Number(pieces) > 1 ? { pieces: Number(pieces) } : {}) }, net };
  }

  async function record(event) {
    event.preventDefault();
    const wrong = {};
    const coins = memo.rows.map((row) => rowOf(row, wrong));
    const terms = agreed(form, wrong);
    if (!form.values.date) wrong.date = 'Give the day on which it came.';
    if (Object.keys(wrong).length) { form.fail(wrong); return; }
    await form.run(async () => {
      const note = form.values.note.trim();
      const made = await engine.record('memo', { way: 'in', coins, ...terms, date: form.values.date, ...(note ? { note } : {}) });
      dropDraft(DRAFT);
      await inPlace(ui, refused, made);
      const due = coins.reduce((sum, { net }) => sum + net, 0);
      ui.go(coins.length === 1 ? `/c/${coins[0].coin}` : '/', { replace: true });
      ui.say(`${coins.length === 1 ? 'In' : `${count(coins.length, 'coin')} in`} your case for ${form.values.with.trim()}, who is to have ${show(due, engine.state.currency)}.`, { act: { text: 'Void', run: () => undoLast(ui) } });
    });
  }

  function view() {
    if (over) return over.view();
    const bar = head(ui, { title: 'In on memo', back: given ? `/c/${read.id ?? given}` : '/more', close: true });
    if (!memo?.rows.length && !read.error && engine.state.role === 'owner') return bar;
    const card = memo?.rows.length === 1 ? cards.get(memo.rows[0].id) : null;
    const why = read.error ?? (engine.state.role !== 'owner' ? 'Only the owner takes coins in on memo.'
      : card && !refused && !(card.theirs && card.state === 'returned') ? 'This label is on a coin of the book already.' : '');
    if (why) return html`${bar}<div class="body gap"><p>${why}</p>${continued ? html`<button type="button" class="button" @click=${startOver}>${icon('close')}Start over</button>` : nothing}</div>`;
    return html`<form class="fill" @submit=${record} novalidate>${bar}<div class="body gap">${whyRefused(refused)}
      ${continued && !refused ? html`<div class="row wrap apart"><span class="small soft">Continued from what was begun here.</span><button type="button" class="button plain" @click=${startOver}>${icon('close')}Start over</button></div>` : nothing}
      ${memo.rows.length === 1 ? one(memo.rows[0]) : several()}
      <div class="row wrap"><button type="button" class="button grow" @click=${find}>${icon('scan')}Scan another</button>
        <button type="button" class="button grow" @click=${() => add(engine.newId(), true)}>${icon('add')}New ID</button></div>
      <fieldset class="group"><legend>Whose ${memo.rows.length === 1 ? 'it is' : 'they are'}</legend>
        ${agreement(form)}
        ${memo.rows.length === 1 ? amount(ui, form, `price-${memo.rows[0].id}`, 'Net to its owner', { help: 'What its owner is to have when it is sold.' }) : nothing}
        ${date(form, 'date', 'Date')}
        ${area(form, 'note', 'Note', { rows: 2 })}</fieldset>
    </div>${submit(form, memo.rows.length === 1 ? 'Take it in' : `Take ${count(memo.rows.length, 'coin')} in`, 'show')}</form>`;
  }

  function one(row) {
    if (row.known) return slip(ui, cards.get(row.id));
    return html`<p class="slip-id"><span class="soft small">${row.drawn ? 'New ID: write it on the holder' : 'Label'}</span><b class="id">${showId(row.id)}</b></p>
      ${coinFields(ui, coin, places)}
      ${text(coin, 'pieces', 'Pieces', { mode: 'numeric', max: 6, hint: '1', help: 'More than one: a lot, one label for so many alike coins.' })}`;
  }

  function several() {
    const nets = memo.rows.map(({ id }) => cents(ui, form, `price-${id}`)).filter((net) => net > 0);
    return html`<section aria-label="Comes in"><header class="side"><h2>Comes in</h2><span role="status"><b class="money">${show(nets.reduce((sum, net) => sum + net, 0), engine.state.currency)}</b></span></header>
      <ul class="deal-lines">${memo.rows.map((row) => {
        const { set } = readCoin(ui, { values: row.values });
        const about = row.known ? cards.get(row.id) : set;
        return comingLine(ui, form, { id: row.id, known: row.known, about, pieces: Number(row.values.pieces) || 1 }, { alone: false, label: 'Net to the owner', edit, drop });
      })}</ul></section>`;
  }
}
