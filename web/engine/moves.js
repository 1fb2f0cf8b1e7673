// What an entry makes of where a coin is. An owner's card holds its moves, and the rest is read from them; a helper's
// card says the state alone, and what that does not tell is left to the desk.
import { awayFor, GONE, here, lent, missing, move, movesOf } from './standing.js';

const OFF = ['on memo', 'on consignment', 'at grading', 'away'];

const sum = (lines) => lines.reduce((total, line) => total + line.cents, 0);
const place = (card, state, { date, due, with: who = '' }, why) => Object.assign(card, { state, where: { with: who, date, why, ...(due ? { due } : {}) } });

function less(card, pieces, state) {
  if (card.pieces) card.left = Math.max(0, card.left - (pieces ?? card.left));
  if (card.pieces && card.left) return card;
  card.state = state;
  delete card.where;
  return card;
}

/** What the coin has to bring: its cost, or what the owner of one that is not ours is to have. */
const basis = (card) => card.own.cost ?? (card.theirs ? movesOf(card).findLast((one) => one.way === 'in')?.cents : null) ?? null;

function gain(card, price, costs) {
  const cost = basis(card);
  return cost === null || price === null || costs === null || card.pieces ? null : won(price - sum(costs), cost, card.own.loss_basis);
}

/**
 * Gain of `net` proceeds over what it cost; below zero a loss. A gift that was worth less than its donor's basis has a basis
 * of its own for a loss (IRC 1015, money/gains.py): between the two there is neither. Null: that basis is not known.
 */
export function won(net, cost, lossBasis) {
  if (lossBasis === undefined || net >= cost) return net - cost;
  return lossBasis === null ? null : Math.min(0, net - lossBasis);
}

/** Sold, wholly or some pieces of it. `price` and `costs` are null where the desk divides them. A coin that had gone waits for a decision. */
export function sold(card, { id: fact, kind }, { costs = [], to = '', date, show = null, note = '' }, { price, pieces, payment, from }) {
  if (!card.own) return GONE.includes(card.state) ? card : less(card, pieces, 'sold');
  const gained = gain(card, price, costs);
  const whole = { fact, price, costs: costs ?? [], to, date, show, payment, note, gain: gained, ...(card.pieces ? { pieces: pieces ?? (card.left || card.pieces) } : {}) };
  if (move(card, { fact, kind, date, with: to, cents: price, pieces, gain: gained, from }) && card.own.sale) card.own.sale = whole;
  return card;
}

export function traded(card, { id: fact, kind, body }, { pieces, value, of: from }) {
  if (!card.own) return GONE.includes(card.state) ? card : less(card, pieces, 'traded');
  const gained = body.out.length === 1 ? gain(card, value, body.costs ?? []) : null;
  move(card, { fact, kind, date: body.date, with: body.with, cents: value, pieces, gain: gained, from });
  return card;
}

/** Given back by the buyer: only what that very sale let go, once. */
export function gaveBack(card, { id: fact, kind, body }) {
  if (!card.own) {
    if (card.state !== 'sold' && !card.pieces) return card;
    if (card.pieces) card.left = Math.min(card.pieces, body.pieces ? card.left + body.pieces : card.pieces); // of all, how many is the desk's to say
    return here(card);
  }
  const sale = movesOf(card).find((one) => one.fact === body.of);
  if (!sale) return card;
  const already = movesOf(card).filter((one) => one.kind === 'return' && one.of === body.of).reduce((sum, one) => sum + (one.pieces ?? 1), 0);
  const alone = body.coins?.length === 1 || sale.kind === 'sale';
  move(card, { fact, kind, date: body.date, with: sale.with, cents: alone ? body.refund : null, pieces: body.pieces ?? (sale.pieces && sale.pieces - already), of: body.of });
  return card;
}

/** Out on memo, or away; it must be here for that. */
export function off(card, { id: fact, kind, body }, { how, due, cents }) {
  if (card.own) {
    move(card, { fact, kind, date: body.date, with: body.with, how, cents, due });
    return card;
  }
  return card.state === 'in stock' || lent(card) ? place(card, awayFor(how), body, how) : card;
}

/** Somebody's coin comes to us. */
export function cameIn(card, { id: fact, kind, body }, { net }) {
  card.theirs = true;
  if (!card.own) return place(card, awayFor(body.kind), body, body.kind);
  move(card, { fact, kind, date: body.date, with: body.with, how: body.kind, cents: net, due: body.due, way: 'in', pieces: card.pieces });
  return card;
}

/** Bought from its owner: what was with us is ours. */
export function ours(card) {
  if (!card.theirs) return card;
  const there = lent(card);
  delete card.theirs;
  return there ? here(card) : card;
}

export function cameBack(card, { id: fact, kind, body }) {
  if (card.own) {
    const isBack = card.theirs ? card.state === 'returned' : card.state === 'in stock' && !missing(card);
    if (!isBack) move(card, { fact, kind, date: body.date, pieces: card.left });
    return card;
  }
  if (lent(card)) {
    delete card.where;
    return Object.assign(card, { state: 'returned' });
  }
  return OFF.includes(card.state) || card.state === 'missing' ? here(card) : card;
}

export function lost(card, { id: fact, kind, body }) {
  if (card.state === 'missing') return card;
  if (card.own) {
    move(card, { fact, kind, date: body.date, how: body.how, cents: body.reimbursed, pieces: body.pieces, from: body.of });
    return card;
  }
  if (GONE.includes(card.state) || body.pieces > card.left) return card;
  less(card, body.pieces, 'missing');
  return card.state === 'missing' ? place(card, 'missing', body, body.how) : card;
}

export function heldAs(card, { id: fact, kind, body }) {
  if (card.own && !card.theirs && move(card, { fact, kind, date: body.date, how: body.to, pieces: card.left })) card.own.held = body.to;
  return card;
}
