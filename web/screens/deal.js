// The composer of deals: what goes out, what comes in, and what changes hands for it. A sale, a purchase or a trade.
import { html, nothing } from '../parts/html.js';
import { goOnAt } from '../parts/go-on.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { makeForm, submit, typed } from '../parts/field.js';
import { show } from '../parts/money.js';
import { coinValues } from '../parts/coin-fields.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { makeCoinView } from '../parts/deal-coin.js';
import { readEstimates } from '../parts/deal-figures.js';
import { makeFinder } from '../parts/deal-find.js';
import { readDeal } from '../parts/deal-read.js';
import { forgetReceipt, receiptOf } from '../parts/deal-receipt.js';
import { dealOf } from '../parts/deal-said.js';
import { belowFloor, changesHands, dealView } from '../parts/deal-view.js';
import { asideSheet, BUTTONS, dealWords, DONE, dropSheet, TITLES } from '../parts/deal-words.js';
import { dealWith, dropDeal, freshDeal, keepDeal, keptDeals, kindOf } from '../parts/deals-kept.js';
import { asksPart } from '../parts/lot-part.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { readParties } from '../parts/party.js';
import { currentShow } from '../parts/show-field.js';
import { undoLast } from '../parts/undo.js';
import { count, HELD } from '../parts/words.js';
import { takeOver } from '../naming/kept.js';
import { partOf } from '../deal/lot.js';

const told = (said, done = false) => ({ done, said });

export function open(ui, { id: given }, { path } = {}) {
  const { engine } = ui;
  const { values: named } = takeOver();
  const cards = new Map();
  let deal = null;
  let form;
  let shows = [];
  let places = [];
  let specific = false; // the purchase that pieces of a lot are from is to be named
  let wants = [];
  let estimates = new Map();
  let estimated = ''; // for which coins
  let asks = new Map(); // of lots: the asking price for the pieces that were typed last
  let refused = null;
  let agreed = false; // to go below the floor
  let continued = false;
  const trading = path?.endsWith('/trade') ?? false;
  let both = trading; // both sides are offered from the start
  let over = null; // what stands over the deal: the finder, a coin that comes in
  const screen = {
    form: true, view, close, changed: refresh,
    get title() { return title(); },
    get full() { return over?.scanning?.() ?? false; },
  };
  load();
  return screen;

  function title() {
    const kind = deal && kindOf(deal);
    return trading && kind !== 'purchase' ? TITLES.trade : TITLES[kind ?? 'none'];
  }

  async function load() {
    const [found, at, where, sought, entry, asks] = await Promise.all([given && engine.card('coin', given), engine.list('show'), engine.places(), engine.list('want'), mended(ui), asksPart(engine), readParties(engine)]);
    [shows, places, wants, specific] = [at, where, sought, asks];
    const kept = keptDeals();
    const begun = entry ? kept.find((one) => one.instead === entry.fact.id) : given ? kept.find((one) => one.out.includes(given)) : kept.find((one) => !one.aside);
    const said = entry && !begun ? await saidBy(entry) : null;
    continued = Boolean(begun);
    await take(begun ?? said ?? fresh());
    if (given && !deal.out.includes(given)) {
      cards.set(given, found);
      goOut(given);
    }
    if (named && deal.editing) edit(deal.editing, named);
    else ui.update();
  }

  async function saidBy({ fact }) {
    const ids = (fact.body.bought ?? fact.body.in ?? []).map((row) => row.coin);
    const known = new Set((await Promise.all(ids.map((id) => engine.card('coin', id)))).filter(Boolean).map((card) => card.id));
    return dealOf(ui, fact, (id) => known.has(id));
  }

  function fresh() {
    const at = currentShow(shows);
    const made = freshDeal();
    Object.assign(made.values, { show: at?.id ?? '', ...(at?.tax_rate ? { taxing: 'rate', rate: at.tax_rate } : {}) });
    return made;
  }

  async function take(one) {
    [deal, agreed, asks] = [one, false, new Map()];
    form = makeForm(ui, deal.values, changed);
    refused = deal.instead ? (await engine.entries()).find(({ fact, state }) => fact.id === deal.instead && state === 'refused') ?? null : null;
    await readCards();
  }

  async function readCards() {
    const ids = [...deal.out, ...deal.come.map((row) => row.id)];
    const found = await Promise.all(ids.map((id) => engine.card('coin', id)));
    ids.forEach((id, at) => cards.set(id, found[at]));
    for (const id of deal.out) if (cards.get(id)?.pieces && !asks.has(id)) asks.set(id, partOf(cards.get(id), piecesOf(id)).ask);
  }

  async function refresh() {
    if (!deal) return;
    await readCards();
    ui.update();
  }

  function close() {
    leaveOff();
    hideCosts();
    over?.close();
  }

  function changed() {
    agreed = false;
    for (const id of deal.out) delete form.wrong[`of-${id}`]; // it hangs on the pieces, too
    for (const [id, before] of asks) {
      const now = partOf(cards.get(id), piecesOf(id)).ask;
      if (deal.values[`price-${id}`] === typed(ui, before)) deal.values[`price-${id}`] = typed(ui, now);
      asks.set(id, now);
    }
    deal.aside = false;
    keepDeal(deal);
  }

  function piecesOf(id) {
    const many = Number(deal.values[`pieces-${id}`]);
    return Number.isInteger(many) && many > 0 ? many : undefined;
  }

  function has(id) {
    return deal.out.includes(id) || deal.come.some((row) => row.id === id);
  }

  // What lies over the deal changes; one goes on at `field`, or at the top.
  function lay(view, field) {
    over?.close();
    over = view;
    ui.update();
    goOnAt(() => {
      const pane = document.querySelector('.pane.place:not([hidden])');
      if (pane) pane.scrollTop = 0;
      return document.getElementById(field) ?? pane?.querySelector('h1');
    });
  }

  function find(side, camera) {
    lay(makeFinder(ui, { side, camera, add: side === 'out' ? addOut : addIn, has, many: () => (side === 'out' ? deal.out : deal.come).length, leave: () => lay(null) }));
  }

  function clash(id) {
    if (has(id)) return told('That coin is in this deal already.');
    return dealWith(id, deal) ? told('That coin is in another deal, which is set aside; take it out there first.') : null;
  }

  async function addOut(id) {
    const no = clash(id);
    if (no) return no;
    const card = await engine.card('coin', id);
    if (!card) return told(await engine.card('blank', id) ? 'That label is blank: it is for a coin that comes in.' : 'No coin of this label is in this phone’s copy.');
    if (!HELD.includes(card.state) && card.state !== 'missing') return told(`That coin is ${card.state} already.`);
    cards.set(id, card);
    goOut(id);
    changed();
    return told(`${card.title} ${card.dateText} goes out.`, true);
  }

  function goOut(id) {
    const card = cards.get(id);
    deal.out.push(id);
    deal.values[`price-${id}`] = typed(ui, card && partOf(card).ask);
    if (card?.pieces) asks.set(id, partOf(card).ask);
  }

  async function addIn(id) {
    const no = clash(id);
    if (no) return no;
    const card = await engine.card('coin', id);
    if (card && (!card.own || card.own.purchase)) return told('This label is on a coin of the book already.');
    if (card && !HELD.includes(card.state)) return told(`That coin is ${card.state} already.`);
    cards.set(id, card);
    comeIn(id, card ? { known: true, values: null } : {});
    return told(card ? `${card.title} ${card.dateText} comes in.` : 'Say what it is.', true);
  }

  function comeIn(id, about = {}) {
    deal.come.push({ id, drawn: false, known: false, values: { ...coinValues(), pieces: '' }, ...about });
    deal.values[`price-${id}`] = '';
    changed();
    if (about.known) ui.update();
    else edit(id);
  }

  function edit(id, values = {}) {
    const row = deal.come.find((one) => one.id === id);
    const end = () => { deal.editing = null; changed(); delete form.wrong[`coin-${id}`]; lay(null, `f-price-${id}`); };
    if (!row) return;
    Object.assign(row.values, Object.fromEntries(Object.entries(values).filter(([name]) => name in row.values)));
    deal.editing = id;
    changed();
    lay(makeCoinView(ui, row, { places, changed, keep: end, drop: () => { drop(id); end(); } }));
  }

  function drop(id) {
    deal.out = deal.out.filter((one) => one !== id);
    deal.come = deal.come.filter((one) => one.id !== id);
    asks.delete(id);
    for (const name of ['price', 'pieces', 'of', 'coin']) { delete deal.values[`${name}-${id}`]; delete form.wrong[`${name}-${id}`]; }
    if (deal.out.length + deal.come.length) changed();
    else forget();
    ui.update();
  }

  function forget() {
    dropDeal(deal);
    forgetReceipt(deal);
  }

  function fill(id, want) {
    deal.come.find((row) => row.id === id).want = want?.id;
    changed();
    ui.update();
  }

  async function begin(one) {
    ui.closeSheet();
    continued = Boolean(one);
    await take(one ?? fresh());
    if (one) changed();
    ui.update();
  }

  // The coin of the card goes into the deal that was begun before.
  async function addTo(one) {
    await begin(one);
    const { said, done } = await addOut(given);
    ui.say(said, done ? {} : { tone: 'bad' });
  }

  function setAside() {
    deal.aside = true;
    keepDeal(deal);
    ui.say('Set aside. It waits under Deals.');
    ui.go('/', { replace: true });
  }

  async function record(event) {
    event.preventDefault();
    const read = readNow();
    if (!read.kind) { ui.say('Add a coin to the one side or the other first.', { tone: 'bad' }); return; }
    if (Object.keys(read.wrong).length) { form.fail(read.wrong); return; }
    if (belowFloor(read).length && !agreed) { agreed = true; ui.update(); return; }
    await form.run(async () => {
      const { kind, body } = read.entry;
      const photo = kind === 'purchase' || kind === 'trade' ? receiptOf(deal).blob : null;
      const made = await engine.record(kind, body, { photo: photo ?? undefined });
      forget();
      await inPlace(ui, refused, made);
      const alone = read.kind === 'ticket' && !read.several ? read.out[0].id : null;
      const receipt = `/receipt/${made.id}`;
      ui.go(alone ? `/c/${alone}` : receipt, { replace: true });
      const voiding = { text: 'Void', run: () => undoLast(ui) };
      ui.say(DONE[kind](read, (cents) => show(cents, engine.state.currency)), { act: alone ? [{ text: 'Receipt', run: () => ui.go(receipt) }, voiding] : voiding });
    });
  }

  // Estimates are read from this phone when the costs are shown, or a price is to be shared by them.
  function estimate(read) {
    const rows = [...read.out.map(({ id, card, part }) => ({ id, about: card, pieces: part?.pieces ?? 1 })), ...read.come];
    const now = JSON.stringify(rows.map(({ id, about, pieces }) => [id, about?.type, about?.year, about?.mint, about?.grade, pieces]));
    if (now === estimated || engine.state.role !== 'owner') return;
    estimated = now;
    readEstimates(rows).then((found) => { estimates = found; ui.update(); }, () => {});
  }

  function readNow() {
    return readDeal(ui, form, deal, { cards, shows, estimates, wants, specific });
  }

  function view() {
    if (!deal) return head(ui, { title: title(), back: '/', close: true });
    if (over) return over.view();
    const read = readNow();
    const { kind } = read;
    if (!costsHidden() || deal.values.split === 'estimate') estimate(read);
    const acts = { find, drop, edit, newId: () => comeIn(engine.newId(), { drawn: true }), both: () => { both = true; ui.update(); }, fill };
    const below = agreed && belowFloor(read).length;
    const [said, sign] = BUTTONS[kind] ?? [];
    const words = trading && kind === 'ticket' ? 'Record as a sale' : said; // nothing comes in yet
    return html`<form class="fill" @submit=${record} novalidate>${head(ui, { title: title(), back: given ? `/c/${given}` : '/', close: true })}
      <div class="body gap">${whyRefused(refused)}${others()}
        ${dealView(ui, { form, deal, read, shows, wants, estimates, both, agreed, acts })}
        ${keptDeals().some((one) => one.key === deal.key) ? html`<div class="row wrap"><button type="button" class="button grow" @click=${setAside}>${icon('wait')}Set aside</button>
          <button type="button" class="button grow" @click=${() => dropSheet(ui, () => { forget(); begin(null); })}>${icon('close')}Start over</button></div>` : nothing}
      </div>
      ${kind ? submit(form, below ? (kind === 'trade' ? 'Trade below the floor' : 'Sell below the floor') : words, sign, { over: changesHands(ui, form, read) }) : nothing}</form>`;
  }

  function others() {
    const kept = keptDeals().filter((one) => one.key !== deal.key);
    const join = given && deal.out.length === 1 && !keptDeals().some((one) => one.key === deal.key) ? kept.find((one) => !one.aside) : null;
    return html`${continued && !refused ? html`<p class="small soft">Continued from what was begun here.</p>` : nothing}
      ${join ? html`<button type="button" class="button wide" @click=${() => addTo(join)}>${icon('add')}Add it to the deal begun: ${dealWords(join).toLowerCase()}</button>` : nothing}
      ${kept.length ? html`<button type="button" class="button plain left" @click=${() => asideSheet(ui, kept, begin)}>${icon('wait')}${count(kept.length, 'other deal')} begun</button>` : nothing}`;
  }
}
