// A refused sale, ticket, trade or purchase as a deal again: all that it said, for the fields of the composer.
import { typed } from './field.js';
import { coinValues } from './coin-fields.js';
import { addCost } from './cost-lines.js';
import { foreignSaid } from './deal-foreign.js';
import { addPayment } from './payments.js';
import { freshDeal } from './deals-kept.js';
import { partySaid } from './party.js';
import { split } from '../deal/allocate.js';
import { fetched } from '../deal/ticket.js';

/** The deal that says what the entry `fact` says. `known(id)`: whether the book on this phone has that coin. */
export function dealOf(ui, fact, known) {
  const { kind, body } = fact;
  const deal = freshDeal();
  const { values } = deal;
  const money = (cents) => typed(ui, cents);
  deal.instead = fact.id;
  Object.assign(values, { date: body.date, show: body.show ?? '', note: body.note ?? '', receipt: body.receipt ?? '', ...foreignSaid(body.foreign), party: partySaid(fact), discount: money(body.discount) });
  if (body.tax) Object.assign(values, { taxing: 'rate', rate: body.tax.rate ?? '' });
  if (body.exempt) Object.assign(values, { taxing: 'exempt', certificate: body.exempt.certificate ?? '', reason: body.exempt.reason });
  const paid = body.payments ?? [{ how: body.payment ?? 'other', cents: null }];
  if (paid.length) deal.paid = [];
  for (const { how, cents } of paid) addPayment(deal, how, money(cents));
  for (const { what, cents } of (body.costs ?? []).slice(kind === 'purchase' ? 1 : 0)) addCost(deal, what, money(cents));
  ({ sale, ticket, purchase, trade })[kind]();
  return deal;

  function goes({ coin, pieces, of }, cents) {
    deal.out.push(coin);
    Object.assign(values, { [`price-${coin}`]: money(cents), ...(pieces ? { [`pieces-${coin}`]: String(pieces) } : {}), ...(of ? { [`of-${coin}`]: of } : {}) });
  }

  function comes({ coin, set, pieces, want }, cents) {
    const isKnown = !Object.keys(set).length && known(coin);
    const about = { ...coinValues(), ...set, year: String(set.year ?? ''), ask: money(set.ask), floor: money(set.floor), pieces: pieces ? String(pieces) : '' };
    deal.come.push({ id: coin, drawn: false, known: isKnown, values: isKnown ? null : about, ...(want ? { want } : {}) });
    values[`price-${coin}`] = money(cents);
  }

  function sale() { goes({ coin: body.coin }, body.price); }

  function ticket() {
    const nets = body.sold.map((row) => row.price);
    const discount = body.discount ?? 0;
    if (body.sold.length === 1) goes(body.sold[0], body.price + discount);
    else if (nets.includes(undefined)) {
      body.sold.forEach((row) => goes(row, null));
      Object.assign(values, { pricing: 'all', all: money(body.price + discount) });
    } else {
      // What each was before the discount is not in the entry: the prices that leave these again, or else these with none taken off.
      const less = discount ? split(discount, nets) : nets.map(() => 0);
      const before = less && nets.map((net, at) => net + less[at]);
      const same = before && fetched({ prices: before, all: null, discount })?.every((net, at) => net === nets[at]);
      body.sold.forEach((row, at) => goes(row, same ? before[at] : nets[at]));
      if (!same) values.discount = '';
    }
  }

  function purchase() {
    const [{ cents: price }] = body.costs;
    const weights = body.bought.map((row) => row.weight);
    const own = body.bought.length > 1 && !body.foreign && body.split === 'weights' && weights.reduce((sum, one) => sum + (one ?? 0), 0) === price;
    body.bought.forEach((row, at) => comes(at || !body.want ? row : { want: body.want, ...row }, body.bought.length === 1 ? price : row.weight));
    if (body.bought.length > 1 && !own) Object.assign(values, { pricing: 'all', all: money(price), split: body.split ?? 'even' });
  }

  function trade() {
    body.out.forEach((row) => goes(row, row.value));
    body.in.forEach((row) => comes(row, row.value));
  }
}

const HOLDS = {
  sale: ['coin', 'price', 'costs', 'to', 'date', 'show', 'payment', 'note'],
  ticket: ['sold', 'price', 'discount', 'tax', 'exempt', 'costs', 'payments', 'to', 'date', 'show', 'note'],
  purchase: ['bought', 'costs', 'split', 'payments', 'foreign', 'receipt', 'from', 'date', 'show', 'payment', 'want', 'note'],
  trade: ['out', 'in', 'boot', 'costs', 'payments', 'receipt', 'with', 'date', 'show', 'note'],
};
const within = (table, names) => Object.entries(table).every(([name, value]) => value === null || names.includes(name));
const FIELDS = Object.keys(coinValues());

/** Whether the composer's fields hold all that an entry says. */
export function holds({ kind, body }) {
  if (!HOLDS[kind] || !within(body, HOLDS[kind])) return false;
  const coming = body.bought ?? body.in ?? [];
  if (!coming.every(({ set }) => within(set, FIELDS))) return false;
  if (kind === 'purchase') return body.costs[0]?.what === 'price' && body.costs.slice(1).every(({ what }) => what !== 'price');
  return (body.costs ?? []).every(({ what }) => what !== 'price');
}
