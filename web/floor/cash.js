// What an entry pays and receives at a show, and what waiting entries make of the desk's figures. Pure; whole minor units.
// The desk's own rule is server/exergue/records/show_money.py; tests hold the two equal.
const INWARD = ['income', 'owner_in'];

const sum = (lines) => lines.reduce((total, line) => total + line.cents, 0);

function signed(kind, cents, ways, how = '') {
  const sign = cents < 0 ? -1 : 1;
  if (ways?.length) return ways.map((one) => ({ kind, how: one.how, cents: sign * one.cents }));
  return cents ? [{ kind, how, cents }] : [];
}

// kind of entry → (body) → [{kind, how, cents}]: above zero came in, `how` is '' where nobody told
const AMOUNTS = {
  sale: ({ price, payment }) => [{ kind: 'sale', how: payment ?? '', cents: price }],
  ticket: ({ price, tax, payments }) => signed('ticket', price + (tax?.cents ?? 0), payments),
  purchase: ({ costs, payments, payment }) => signed('purchase', -sum(costs), payments, payment ?? ''),
  trade: ({ boot, payments }) => signed('trade', boot, payments),
  return: ({ refund, tax, payments }) => signed('return', -(refund + (tax ?? 0)), payments),
  money({ what, cents, how, to_how: to }) {
    const out = { kind: what, how, cents: INWARD.includes(what) ? cents : -cents };
    return what === 'transfer' ? [out, { kind: what, how: to, cents }] : [out];
  },
};

/** What one entry pays and receives. */
export const amounts = ({ kind, body }) => AMOUNTS[kind]?.(body) ?? [];

/**
 * {cash, spent, budget, left, float, drawer}: `own` (the owner's part of the show's card) with `facts` on top, this phone's waiting
 * entries in their order. `target(id)` finds an entry of this phone, `atShow(fact)` says whether it is of this show; `last`: its last day.
 */
export function standing(own, facts, { target, atShow, last }) {
  const told = { float: own.float ?? null, budget: own.budget ?? null };
  let [cash, spent, drawer] = [own.cash ?? told.float ?? 0, own.spent ?? 0, own.drawer ?? null];
  const counts = (fact) => atShow(fact) && !(fact.kind === 'return' && last && fact.body.date > last);
  const add = (fact, sign) => {
    for (const one of counts(fact) ? amounts(fact) : []) {
      if (one.how === 'cash') cash += sign * one.cents;
      if (['purchase', 'trade'].includes(one.kind) && one.cents < 0) spent -= sign * one.cents;
    }
  };
  const undone = new Set(facts.filter((fact) => fact.kind === 'void').map((fact) => fact.body.of));
  const here = new Set(facts.map((fact) => fact.id));
  for (const fact of facts) {
    if (undone.has(fact.id)) continue;
    const { kind, body } = fact;
    if (kind === 'void') {
      const gone = here.has(body.of) ? null : target(body.of);
      if (gone) add(gone, -1);
    } else if (kind === 'show.edit' && atShow(fact)) {
      if ('float' in body.set) {
        cash += (body.set.float ?? 0) - (told.float ?? 0);
        told.float = body.set.float;
      }
      if ('budget' in body.set) told.budget = body.set.budget;
    } else if (kind === 'drawer' && atShow(fact)) {
      drawer = { cents: body.pieces.reduce((total, row) => total + row.cents * row.number, 0), date: body.date, fact: fact.id };
    } else add(fact, 1);
  }
  return { cash, spent, ...told, left: told.budget === null ? null : told.budget - spent, drawer };
}
