// The composer of deals: what goes out, what comes in, and what changes hands for it. A sale, a purchase or a trade.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { amount, area, choice, date, makeForm, segments, submit, typed } from '../parts/field.js';
import { show } from '../parts/money.js';
import { coinValues } from '../parts/coin-fields.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { costFields } from '../parts/cost-lines.js';
import { makeCoinView } from '../parts/deal-coin.js';
import { dealFigures, readEstimates } from '../parts/deal-figures.js';
import { makeFinder } from '../parts/deal-find.js';
import { comingLine, goingLine } from '../parts/deal-lines.js';
import { readDeal } from '../parts/deal-read.js';
import { dealOf } from '../parts/deal-said.js';
import { dealWith, dropDeal, freshDeal, keepDeal, keptDeals, kindOf } from '../parts/deals-kept.js';
import { asideSheet, dropSheet, DONE, SPLITS, TITLES } from '../parts/deal-words.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { partyField } from '../parts/party.js';
import { paidFields } from '../parts/payments.js';
import { termFields } from '../parts/sale-terms.js';
import { currentShow, showField } from '../parts/show-field.js';
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
  let estimates = new Map();
  let estimated = ''; // for which coins
  let asks = new Map(); // of lots: the asking price for the pieces that were typed last
  let refused = null;
  let agreed = false; // to go below the floor
  let continued = false;
  let both = path?.endsWith('/trade') ?? false; // both sides are offered from the start
  let over = null; // what stands over the deal: the finder, a coin that comes in
  const screen = {
    form: true, view, close, changed: refresh,
    get title() { return TITLES[(deal && kindOf(deal)) ?? 'none']; },
    get full() { return over?.scanning?.() ?? false; },
  };
  load();
  return screen;

  async function load() {
    const [found, at, where, entry] = await Promise.all([given && engine.card('coin', given), engine.list('show'), engine.places(), mended(ui)]);
    [shows, places] = [at, where];
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

  function lay(view) {
    over?.close();
    over = view;
    ui.update();
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
    const end = () => { deal.editing = null; changed(); delete form.wrong[`coin-${id}`]; lay(null); };
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
    for (const name of ['price', 'pieces', 'coin']) { delete deal.values[`${name}-${id}`]; delete form.wrong[`${name}-${id}`]; }
    if (deal.out.length + deal.come.length) changed();
    else dropDeal(deal);
    ui.update();
  }

  async function begin(one) {
    ui.closeSheet();
    continued = Boolean(one);
    await take(one ?? fresh());
    if (one) changed();
    ui.update();
  }

  function setAside() {
    deal.aside = true;
    keepDeal(deal);
    ui.say('Set aside. It waits under Deals.');
    ui.go('/', { replace: true });
  }

  function below({ kind, out }) {
    return out.filter((row) => row.part?.floor && (kind === 'ticket' ? row.net : row.price) !== null && (kind === 'ticket' ? row.net : row.price) < row.part.floor);
  }

  async function record(event) {
    event.preventDefault();
    const read = readDeal(ui, form, deal, { cards, shows, estimates });
    if (!read.kind) { ui.say('Add a coin to the one side or the other first.', { tone: 'bad' }); return; }
    if (Object.keys(read.wrong).length) { form.fail(read.wrong); return; }
    if (below(read).length && !agreed) { agreed = true; ui.update(); return; }
    await form.run(async () => {
      const { kind, body } = read.entry;
      const made = await engine.record(kind, body);
      dropDeal(deal);
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
    readEstimates(ui, rows).then((found) => { estimates = found; ui.update(); }, () => {});
  }

  function view() {
    if (!deal) return head(ui, { title: TITLES.none, back: '/', close: true });
    if (over) return over.view();
    const read = readDeal(ui, form, deal, { cards, shows, estimates });
    const { kind, out, come } = read;
    const owner = engine.state.role === 'owner';
    if (!costsHidden() || deal.values.split === 'estimate') estimate(read);
    return html`<form class="fill" @submit=${record} novalidate>${head(ui, { title: TITLES[kind ?? 'none'], back: given ? `/c/${given}` : '/', close: true })}
      <div class="body gap">${whyRefused(refused)}${others()}
        ${out.length || !come.length || both ? goes(read) : nothing}
        ${come.length || !out.length || both ? comes(read) : nothing}
        ${kind && !both && kind !== 'trade' ? html`<button type="button" class="button plain left" @click=${() => { both = true; ui.update(); }}>${icon('sync')}${out.length ? 'Trade: something comes in for it' : 'Trade: something goes out for it'}</button>` : nothing}
        ${kind === 'trade' ? boot(read) : nothing}
        ${kind ? html`${floor(read)}
          ${owner && (out.length || come.length) ? html`${costButton(ui)}${costsHidden() ? nothing : dealFigures(ui, read, estimates)}` : nothing}
          ${terms(read)}` : html`<p class="soft">A coin that goes out for money is a sale, one that comes in is a purchase, and both are a trade.</p>`}
        ${keptDeals().some((one) => one.key === deal.key) ? html`<div class="row wrap"><button type="button" class="button grow" @click=${setAside}>${icon('wait')}Set aside</button>
          <button type="button" class="button grow" @click=${() => dropSheet(ui, () => { dropDeal(deal); begin(null); })}>${icon('close')}Start over</button></div>` : nothing}
      </div>
      ${kind ? submit(form, agreed && below(read).length ? (kind === 'trade' ? 'Trade below the floor' : 'Sell below the floor') : `Record the ${kind === 'ticket' ? 'sale' : kind}`, kind === 'purchase' ? 'buy' : kind === 'trade' ? 'sync' : 'sell') : nothing}</form>`;
  }

  function others() {
    const kept = keptDeals().filter((one) => one.key !== deal.key);
    return html`${continued && !refused ? html`<p class="small soft">Continued from what was begun here.</p>` : nothing}
      ${kept.length ? html`<button type="button" class="button plain left" @click=${() => asideSheet(ui, kept, begin)}>${icon('wait')}${count(kept.length, 'other deal')} begun</button>` : nothing}`;
  }

  function sumOf(title, cents) {
    return html`<header class="side"><h2>${title}</h2>${cents === null ? nothing : html`<b class="money" role="status">${show(cents, engine.state.currency)}</b>`}</header>`;
  }

  function goes(read) {
    const { kind, out, several, forAll, gross } = read;
    const label = kind === 'trade' ? 'Value' : 'Price';
    return html`<section aria-label="Goes out">${sumOf('Goes out', out.length > 1 || kind === 'trade' ? (kind === 'trade' ? out.reduce((sum, one) => sum + (one.price ?? 0), 0) : gross) : null)}
      <ul class="deal-lines">${out.map((row) => goingLine(ui, form, row, { alone: out.length === 1 && kind !== 'trade', label, forAll, drop }))}</ul>
      ${several && kind === 'ticket' ? pricing('One price for all of them', forAll) : nothing}
      <div class="row wrap"><button type="button" class="button grow" @click=${() => find('out', true)}>${icon('scan')}${out.length ? 'Scan another' : 'Scan a label'}</button>
        <button type="button" class="button grow" @click=${() => find('out', false)}>${icon('search')}Find${out.length ? ' another' : ' a coin'}</button></div></section>`;
  }

  function comes(read) {
    const { kind, come, several, forAll, gross } = read;
    const label = kind === 'trade' ? 'Value' : !forAll ? 'Price' : deal.values.split === 'weights' ? 'Share' : null;
    return html`<section aria-label="Comes in">${sumOf('Comes in', come.length > 1 || kind === 'trade' ? (kind === 'trade' ? come.reduce((sum, one) => sum + (one.price ?? 0), 0) : gross) : null)}
      <ul class="deal-lines">${come.map((row) => comingLine(ui, form, row, { alone: come.length === 1 && kind !== 'trade', label, edit, drop }))}</ul>
      ${several && kind === 'purchase' ? html`${pricing('Price for all of them', forAll)}
        ${forAll ? html`<div class=${form.wrong.split ? 'field broken' : ''}>${choice(form, 'split', 'Shared over the coins', SPLITS.filter(([key]) => key !== 'estimate' || engine.state.role === 'owner'))}${form.wrong.split ? html`<p class="wrong">${form.wrong.split}</p>` : nothing}</div>` : nothing}` : nothing}
      <div class="row wrap"><button type="button" class="button grow" @click=${() => find('in', true)}>${icon('scan')}Scan a blank label</button>
        <button type="button" class="button grow" @click=${() => comeIn(engine.newId(), { drawn: true })}>${icon('add')}New ID</button></div></section>`;
  }

  function pricing(all, forAll) {
    return html`${segments('pricing', deal.values.pricing, [['each', 'Each its price'], ['all', 'One price']], (value) => form.set('pricing', value || 'each'), 'Pricing')}
      ${forAll ? amount(ui, form, 'all', all) : nothing}`;
  }

  function boot({ boot: cents }) {
    return html`<p class="sum" role="status"><span>${cents ? (cents > 0 ? 'They pay you, to be even' : 'You pay them, to be even') : 'The sides are even'}</span>
      ${cents ? html`<b class="money">${show(Math.abs(cents), engine.state.currency)}</b>` : nothing}</p>`;
  }

  function floor(read) {
    const low = below(read);
    if (!low.length || (costsHidden() && !agreed)) return nothing;
    const how = read.kind === 'trade' ? 'trade' : 'sell';
    const shown = costsHidden() ? '.' : html` of <b class="money">${show(low[0].part.floor, engine.state.currency)}</b>${low.length > 1 ? html`, and ${count(low.length - 1, 'other coin')} below its own` : nothing}.`;
    return html`<div class="callout warn" role="alert">${icon('warn')}<p>Below the floor${shown} ${agreed ? `Press again to ${how} below it.` : nothing}</p></div>`;
  }

  function terms(read) {
    const { kind, due, gross } = read;
    const buying = kind === 'purchase';
    const costs = costFields(ui, form, deal, buying ? { label: 'Added cost', add: 'Fee, tax, shipping', first: 'fee' }
      : { label: kind === 'trade' ? 'Cost of the trade' : 'Cost of selling', add: kind === 'trade' ? 'A cost of the trade' : 'A cost of selling', first: kind === 'trade' ? 'shipping' : 'fee' });
    return html`${buying ? html`${costs}<p class="sum"><span>All in</span><b class="money" role="status">${show(due, engine.state.currency)}</b></p>` : nothing}
      ${kind === 'ticket' ? termFields(ui, form, gross) : nothing}
      ${kind === 'trade' && !due ? nothing : paidFields(ui, form, deal, due)}
      ${partyField(form, kind)}
      <div class="pair">${date(form, 'date', 'Date')}${showField(form, shows)}</div>
      ${buying ? nothing : costs}
      ${area(form, 'note', 'Note', { rows: 2 })}
      <p class="soft small">${kind === 'trade' ? 'A trade may be taxed as a sale; ask the state or a licensed preparer. ' : ''}Large cash payments may have to be reported; your local rules decide.</p>`;
  }
}
