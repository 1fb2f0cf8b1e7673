// What an entry did, in a few words.
import { show } from './money.js';
import { capital, SIDES } from './words.js';
import { ANSWERS } from './coin-checks.js';

const FIELDS = { ask: 'asking price', certified_by: 'certified by', denom: 'denomination', year: 'date' };

export const entryCoin = ({ body }) => body.coin ?? body.bought?.[0]?.coin ?? body.sold?.[0]?.coin ?? body.out?.[0]?.coin ?? null;

// {what, detail}; reads the body as this phone wrote it.
export function entryWords(fact, { currency, reference, typeKey }) {
  const { kind, body } = fact;
  switch (kind) {
    case 'sale': return { sign: 'sell', what: `Sale for ${show(body.price, currency)}`, detail: body.to ? `to ${body.to}` : '' };
    case 'ticket': return { sign: 'sell', what: `Sale for ${show(body.price, currency)}`, detail: body.to ? `to ${body.to}` : '' };
    case 'trade': return { sign: 'sync', what: body.boot ? `Trade, ${show(Math.abs(body.boot), currency)} ${body.boot > 0 ? 'received' : 'paid'}` : 'Trade, even', detail: body.with ? `with ${body.with}` : '' };
    case 'purchase': return { sign: 'buy', what: `Purchase for ${show(body.costs.reduce((sum, line) => sum + line.cents, 0), currency)}`, detail: body.from ? `from ${body.from}` : '' };
    case 'coin.edit': return 'place' in body.set ? { sign: 'move', what: body.set.place ? `Moved to ${body.set.place}` : 'Place cleared', detail: '' }
      : { sign: 'note', what: `Changed: ${Object.keys(body.set).map((name) => FIELDS[name] ?? name).join(', ')}`, detail: '' };
    case 'coin.add': return { sign: 'stock', what: 'New coin', detail: '' };
    case 'note': return { sign: 'note', what: 'Note', detail: body.text };
    case 'photo': return { sign: 'camera', what: `Photo of the ${(SIDES[body.side] ?? 'coin').toLowerCase()}`, detail: '' };
    case 'check': {
      const look = reference?.types?.[typeKey]?.looks?.find((one) => one.key === body.key);
      const name = reference?.features?.[look?.feature]?.name ?? capital(body.key);
      return { sign: ANSWERS[body.answer]?.sign ?? 'ring', what: `${name}: ${(ANSWERS[body.answer]?.words ?? 'answer cleared').toLowerCase()}`, detail: body.note ?? '' };
    }
    case 'void': return { sign: 'undo', what: 'Voided an entry', detail: body.reason ?? '' };
    default: return { sign: 'entries', what: capital(kind.replace('.', ', ')), detail: '' };
  }
}
