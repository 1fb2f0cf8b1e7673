// What an entry did, in a few words.
import { show } from './money.js';
import { capital, count, SIDES } from './words.js';
import { ANSWERS } from './coin-checks.js';
import { named } from '../engine/new-coin.js';

const FIELDS = { ask: 'asking price', certified_by: 'certified by', denom: 'denomination', year: 'date', grade_from: 'lowest grade', grade_to: 'highest grade' };
const fields = (set) => Object.keys(set).map((name) => FIELDS[name] ?? name).join(', ');

const MONEY = { expense: ['sell', 'Expense'], income: ['add', 'Income'], owner_in: ['add', 'Cash put in'], owner_out: ['out', 'Cash taken out'], tax_paid: ['sell', 'Tax paid'] };
const AWAY = { grading: ' for grading', conservation: ' for conservation', display: ' for display' };
const many = (coins) => (coins?.length > 1 ? `, ${count(coins.length, 'coin')}` : '');

// The coin that an entry names first.
export function entryCoin({ body }) {
  const first = ['bought', 'sold', 'out', 'in', 'coins'].map((name) => body[name]?.[0]).find(Boolean);
  return body.coin ?? first?.coin ?? first ?? null;
}

// {what, detail}; reads the body as this phone wrote it.
export function entryWords(fact, { currency, reference, typeKey }) {
  const { kind, body } = fact;
  switch (kind) {
    case 'sale': return { sign: 'sell', what: `Sale for ${show(body.price, currency)}`, detail: body.to ? `to ${body.to}` : '' };
    case 'ticket': return { sign: 'sell', what: `Sale for ${show(body.price, currency)}`, detail: body.to ? `to ${body.to}` : '' };
    case 'trade': return { sign: 'sync', what: body.boot ? `Trade, ${show(Math.abs(body.boot), currency)} ${body.boot > 0 ? 'received' : 'paid'}` : 'Trade, even', detail: body.with ? `with ${body.with}` : '' };
    case 'purchase': return { sign: 'buy', what: `Purchase for ${show(body.costs.reduce((sum, line) => sum + line.cents, 0), currency)}`, detail: body.from ? `from ${body.from}` : '' };
    case 'coin.edit': return 'place' in body.set ? { sign: 'move', what: body.set.place ? `Moved to ${body.set.place}` : 'Place cleared', detail: '' }
      : { sign: 'note', what: `Changed: ${fields(body.set)}`, detail: '' };
    case 'coin.add': return { sign: 'stock', what: 'New coin', detail: '' };
    case 'note': return { sign: 'note', what: 'Note', detail: body.text };
    case 'photo': return { sign: 'camera', what: `Photo of the ${(SIDES[body.side] ?? 'coin').toLowerCase()}`, detail: '' };
    case 'receipt': return { sign: 'camera', what: 'Photo of a receipt', detail: '' };
    case 'check': {
      const look = reference?.types?.[typeKey]?.looks?.find((one) => one.key === body.key);
      const name = reference?.features?.[look?.feature]?.name ?? capital(body.key);
      return { sign: ANSWERS[body.answer]?.sign ?? 'ring', what: `${name}: ${(ANSWERS[body.answer]?.words ?? 'answer cleared').toLowerCase()}`, detail: body.note ?? '' };
    }
    case 'cost': return { sign: 'add', what: `Later cost of ${show(body.costs.reduce((sum, line) => sum + line.cents, 0), currency)}${many(body.coins)}`, detail: body.from ? `to ${body.from}` : '' };
    case 'return': return { sign: 'undo', what: `Returned by the buyer${many(body.coins)}`, detail: `${show(body.refund, currency)} refunded` };
    case 'memo': return { sign: 'show', what: `${body.way === 'out' ? 'Out' : 'In'} on ${body.kind}${many(body.coins)}`, detail: body.with ? `with ${body.with}` : '' };
    case 'away': return { sign: 'out', what: `Sent away${AWAY[body.why] ?? ''}${many(body.coins)}`, detail: body.with ? `with ${body.with}` : '' };
    case 'back': return { sign: 'undo', what: `Back${many(body.coins)}`, detail: '' };
    case 'lost': return { sign: 'unsure', what: `${capital(body.how)}${body.pieces ? `: ${count(body.pieces, 'piece')}` : ''}`, detail: '' };
    case 'withdrawn': return { sign: 'move', what: `Held as ${body.to}${many(body.coins)}`, detail: '' };
    case 'money': return { sign: MONEY[body.what]?.[0] ?? 'entries', what: `${MONEY[body.what]?.[1] ?? capital(body.what)}: ${show(body.cents, currency)}`, detail: body.about ?? '' };
    case 'pack': return { sign: 'move', what: `${body.undo ? 'Taken out of the pack list' : 'Packed'}${many(body.coins)}`, detail: body.box ? `into ${body.box}` : '' };
    case 'count': return { sign: 'scan', what: `Counted ${count(body.seen.length, 'label')}`, detail: body.place ? `in ${body.place}` : '' };
    case 'drawer': return { sign: 'sell', what: `Cash drawer counted: ${show(body.pieces.reduce((sum, row) => sum + row.cents * row.number, 0), currency)}`, detail: '' };
    case 'settle': return { sign: 'note', what: 'Explained a difference', detail: body.note ?? '' };
    case 'show.close': return { sign: 'show', what: 'Closed the show', detail: '' };
    case 'show.open': return { sign: 'show', what: 'Opened the show again', detail: '' };
    case 'void': return { sign: 'undo', what: 'Voided an entry', detail: body.reason ?? '' };
    case 'want.add': return { sign: 'wants', what: 'New want', detail: [named(body.set).title, body.set.years].filter(Boolean).join(', ') };
    case 'want.edit': return { sign: 'wants', what: `Changed a want: ${fields(body.set)}`, detail: '' };
    case 'want.drop': return { sign: 'wants', what: 'A want off the list', detail: '' };
    case 'sighting.add': return { sign: 'eye', what: `Seen: ${named(body.set).title}`, detail: [body.set.dealer, body.set.table && `table ${body.set.table}`, body.set.ask == null ? '' : show(body.set.ask, currency)].filter(Boolean).join(', ') };
    case 'sighting.edit': return { sign: 'eye', what: `Changed a sighting: ${fields(body.set)}`, detail: '' };
    case 'sighting.drop': return { sign: 'eye', what: 'A sighting off the list', detail: '' };
    case 'contact.add': return { sign: 'show', what: `New contact: ${body.set.name ?? ''}`, detail: '' };
    case 'contact.edit': return { sign: 'show', what: `Changed a contact: ${fields(body.set)}`, detail: '' };
    case 'contact.drop': return { sign: 'show', what: 'A contact off the list', detail: '' };
    default: return { sign: 'entries', what: capital(kind.replace('.', ', ')), detail: '' };
  }
}
