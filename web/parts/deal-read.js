// A deal in the making, read: what it comes to, the entry that it makes, and what is wrong with it by field.
import { cents } from './field.js';
import { readCoin } from './coin-fields.js';
import { checkTerms, sum } from './sale-terms.js';
import { readCosts } from './cost-lines.js';
import { readPaid } from './payments.js';
import { partyOf } from './party.js';
import { kindOf } from './deals-kept.js';
import { askedOf, readPart } from './lot-part.js';
import { readForeign } from './deal-foreign.js';
import { HELD } from './words.js';
import { split } from '../deal/allocate.js';
import { partOf } from '../deal/lot.js';
import { shares } from '../deal/lump.js';
import { asking, fetched, ticketFields } from '../deal/ticket.js';

const NO_MONEY = 'That is not an amount of money.';
const FACE_PARTS = 960; // a face in cents of its country's money is a whole number of these parts of a cent
const total = (rows) => rows.reduce((all, one) => all + (one.price ?? 0), 0);

/**
 * {kind, out, come, gross, due, boot, wrong, entry}: rows {id, card, part|pieces, price, net} of both sides, `gross` before discount,
 * `due` what changes hands (null: not known yet), `entry` {kind, body}. `cards`: Map of coins that are here, `estimates`: Map of cents,
 * `wants`: those of the list. `abroad`: what was paid in another currency, as readForeign has it.
 * `specific`: the book wants the purchase named that pieces of a lot are from.
 */
export function readDeal(ui, form, deal, { cards, shows, estimates, wants = [], specific = false }) {
  const wrong = {};
  const kind = kindOf(deal);
  const { values } = form;
  const several = kind === 'ticket' ? deal.out.length > 1 : deal.come.length > 1;
  const abroad = kind === 'purchase' ? readForeign(ui, form, wrong) : null;
  const forAll = kind !== 'trade' && several && (values.pricing === 'all' || Boolean(abroad));
  const all = abroad ? abroad.price : forAll ? money('all') : null;
  const out = deal.out.map(leaving);
  const come = deal.come.map(coming);
  if (forAll && all === null && !abroad) wrong.all ??= kind === 'ticket' ? 'Give the price for all of them.' : 'Give the price for all of them; 0 for nothing.';
  if (!values.date) wrong.date = kind === 'trade' ? 'A trade needs its date.' : kind === 'purchase' ? 'A purchase needs its date.' : 'A sale needs its date.';
  const costs = readCosts(ui, form, deal, wrong);
  const read = { kind, out, come, costs, wrong, several, forAll, abroad, gross: forAll ? all ?? 0 : total(kind === 'purchase' ? come : out), boot: 0, due: 0, entry: null };
  if (kind) ({ ticket, purchase, trade })[kind]();
  return read;

  function money(name) {
    const found = cents(ui, form, name);
    if (Number.isNaN(found)) wrong[name] = NO_MONEY;
    return Number.isNaN(found) ? null : found;
  }

  function leaving(id) {
    const card = cards.get(id) ?? null;
    const price = forAll ? null : money(`price-${id}`);
    const field = forAll ? `coin-${id}` : `price-${id}`;
    if (!card) wrong[field] = 'This coin is not in this phone’s copy; take it out of the deal.';
    else if (!HELD.includes(card.state) && card.state !== 'missing') wrong[field] = `This coin is ${card.state} already; take it out of the deal.`;
    const many = card?.pieces ? count(id, card) : 1;
    const parts = askedOf(card, specific);
    const { from, wrong: which } = readPart(parts, values[`of-${id}`], many, card?.left);
    if (which && !wrong[`pieces-${id}`]) wrong[`of-${id}`] = which;
    const part = card && partOf(card, many, from || undefined);
    const need = kind === 'trade' ? 'Give this coin its value.' : several ? 'Give this coin its price, or one price for all.' : 'A sale needs its price.';
    if (!forAll && price === null) wrong[field] ??= need;
    return { id, card, part, price, parts, of: from ? { of: from } : {} };
  }

  function count(id, card) {
    const text = (values[`pieces-${id}`] ?? '').trim();
    const left = card.left ?? card.pieces;
    const many = text ? Number(text) : left;
    if (!Number.isInteger(many) || many < 1) wrong[`pieces-${id}`] = 'Give a number of pieces, at least 1.';
    else if (many > left) wrong[`pieces-${id}`] = `Only ${left} of this lot are left.`;
    return Number.isInteger(many) && many >= 1 ? many : left;
  }

  function coming(row) {
    const { id, known } = row;
    const needed = forAll ? values.split === 'weights' : !abroad;
    const price = needed ? money(`price-${id}`) : abroad && !several ? abroad.price : null;
    const name = `price-${id}`;
    const { set, wrong: bad } = known ? { set: {}, wrong: {} } : readCoin(ui, { values: row.values });
    const [first] = Object.values(bad);
    if (first) wrong[`coin-${id}`] = first;
    if (!known && cards.get(id)) wrong[`coin-${id}`] = 'This label is on a coin of the book by now; give the coin another label.';
    const many = /^\d{1,6}$/.test((row.values?.pieces ?? '').trim()) ? Number(row.values.pieces) : row.values?.pieces?.trim() ? null : 1;
    if (many === null || many < 1) wrong[`coin-${id}`] ??= 'Give a number of pieces, at least 1.';
    const need = kind === 'trade' ? 'Give this coin its value.' : forAll ? 'Give this coin its share.' : several ? 'Give this coin its price; 0 for nothing.' : 'A purchase needs its price; 0 for a gift.';
    if (needed && price === null) wrong[name] ??= need;
    const about = known ? cards.get(id) : set;
    return { id, known, set, about, price, pieces: known ? about?.pieces ?? 1 : many || 1, want: wants.find((one) => one.id === row.want) ?? null };
  }

  function common(entry) {
    const note = values.note.trim();
    const receipt = entry === 'purchase' || entry === 'trade' ? values.receipt : '';
    return { date: values.date, ...(receipt ? { receipt } : {}), ...partyOf(values, entry), ...(values.show ? { show: values.show } : {}), ...(note ? { note } : {}) };
  }

  function ticket() {
    checkTerms(ui, form, read.gross, wrong);
    const sums = sum(ui, form, read.gross);
    const discount = cents(ui, form, 'discount') || 0;
    const weights = forAll && out.every(({ part }) => part) ? asking(out.map(({ part }) => part)) : null;
    if (forAll && all !== null && !weights) wrong.all ??= 'Not every coin has an asking price to share by; give each coin its price.';
    const nets = sums.agreed >= 0 ? fetched({ prices: out.map(({ price }) => price ?? 0), weights, all, discount }) : null;
    out.forEach((row, at) => { row.net = nets?.[at] ?? null; });
    Object.assign(read, { due: sums.total, agreed: sums.agreed });
    const paid = readPaid(ui, form, deal, sums.total ?? 0, wrong);
    const place = shows.find((one) => one.id === values.show)?.tax_place;
    const terms = ticketFields({ ...values, discount, place }, sums);
    const spent = costs.length ? { costs } : {};
    const [only] = out;
    if (!several && !only.card?.pieces && paid.length < 2 && !Object.keys(terms).length) {
      read.entry = { kind: 'sale', body: { coin: only.id, price: sums.agreed, payment: paid[0]?.how ?? 'other', ...spent, ...common('sale') } };
      return;
    }
    const sold = out.map(({ id, card, part, net, of }, at) => ({
      coin: id, ...(card?.pieces ? { pieces: part.pieces } : {}), ...of, ...(several ? (forAll ? { weight: weights?.[at] ?? 0 } : { price: net }) : {}),
    }));
    read.entry = { kind: 'ticket', body: { sold, price: sums.agreed, ...terms, ...(paid.length ? { payments: paid } : {}), ...spent, ...common('ticket') } };
  }

  function purchase() {
    const price = forAll ? all ?? 0 : total(come);
    const lines = [{ what: 'price', cents: price }, ...costs];
    read.due = lines.reduce((sumOf, line) => sumOf + line.cents, 0);
    const how = forAll ? values.split : 'each';
    const { weights, wrong: cannot } = shares(how, come.map((row) => ({ price: row.price, pieces: row.pieces, estimate: estimates.get(row.id), ...face(row.about) })));
    if (cannot && forAll) wrong.split = cannot;
    const landed = split(read.due, weights ?? come.map((row) => row.pieces)); // near enough: the desk divides line by line
    come.forEach((row, at) => { row.landed = landed?.[at] ?? null; });
    const paid = readPaid(ui, form, deal, read.due, wrong);
    const bought = come.map(({ id, set, known, pieces, want }, at) => ({
      coin: id, set, ...(!known && pieces > 1 ? { pieces } : {}), ...(weights ? { weight: weights[at] } : {}), ...filling(want),
    }));
    read.entry = { kind: 'purchase', body: {
      bought, costs: lines, ...(abroad?.foreign ? { foreign: abroad.foreign } : {}), ...(several ? { split: weights ? (how === 'each' ? 'weights' : how) : 'even' } : {}),
      ...(paid.length > 1 ? { payments: paid } : { payment: paid[0]?.how ?? 'other' }), ...common('purchase'),
    } };
  }

  function filling(want) {
    return want ? { want: want.id } : {};
  }

  function face(about) {
    const found = ui.engine.reference.denominations.find((one) => one.key === about?.denom);
    return found ? { face: [Math.round(found.cents * FACE_PARTS), FACE_PARTS], country: found.country } : {};
  }

  function trade() {
    read.boot = total(out) - total(come);
    read.due = Math.abs(read.boot);
    const paid = read.due ? readPaid(ui, form, deal, read.due, wrong) : [];
    read.entry = { kind: 'trade', body: {
      out: out.map(({ id, card, part, price, of }) => ({ coin: id, value: price, ...(card?.pieces ? { pieces: part.pieces } : {}), ...of })),
      in: come.map(({ id, set, price, known, pieces, want }) => ({ coin: id, set, value: price, ...(!known && pieces > 1 ? { pieces } : {}), ...filling(want) })),
      boot: read.boot, ...(costs.length ? { costs } : {}), ...(paid.length ? { payments: paid } : {}), ...common('trade'),
    } };
  }
}
