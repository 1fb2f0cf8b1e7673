// Deals in the making: they outlive a look elsewhere, a reload and a killed tab. The newest comes first.
import { keepDraft, readDraft } from './draft.js';
import { today } from './dates.js';
import { TERMS } from './sale-terms.js';
import { FOREIGN } from './deal-foreign.js';
import { addPayment } from './payments.js';

const NAME = 'deals';

/**
 * A deal: {key, aside, values (what was typed, by field), out: [coin IDs], come: [{id, drawn, known, values, want?}], paid and costs
 * (keys of their rows), n (the last of these keys), instead: the refused entry that it puts right, editing: a coin that comes in}.
 */
export function freshDeal() {
  const deal = {
    key: crypto.randomUUID(), aside: false, out: [], come: [], paid: [], costs: [], n: 0, instead: null, editing: null,
    values: { ...TERMS, date: today(), show: '', note: '', party: '', pricing: 'each', split: 'even', all: '', receipt: '', ...FOREIGN },
  };
  addPayment(deal);
  return deal;
}

export const keptDeals = () => readDraft(NAME) ?? [];

/** Keep it as the newest; only the newest is gone on with by itself. */
export function keepDeal(deal) {
  const others = keptDeals().filter((one) => one.key !== deal.key);
  keepDraft(NAME, [deal, ...others.map((one) => ({ ...one, aside: one.aside || !deal.aside }))]);
}

export const dropDeal = (deal) => keepDraft(NAME, keptDeals().filter((one) => one.key !== deal.key));

/** The deal, other than this, in which a coin stands already. */
export const dealWith = (id, but) => keptDeals().find((one) => one.key !== but?.key && (one.out.includes(id) || one.come.some((row) => row.id === id)));

export const kindOf = ({ out, come }) => (out.length && come.length ? 'trade' : out.length ? 'ticket' : come.length ? 'purchase' : null);
