// Where a coin is and what is left of a lot: its moves on the card, read in their order as the desk reads them
// (records/fold/standing.py; a test holds the two against each other). A helper's card has no moves.
const AWAY = { grading: 'at grading', memo: 'on memo', consignment: 'on consignment' };
const GOES = { sale: 'sold', ticket: 'sold', trade: 'traded' };
const HERE = 'in stock';

/** States of a coin that is no longer ours, or no longer with us. */
export const GONE = ['sold', 'traded', 'returned'];

/** A card whose coin is in our case. */
export function here(card) {
  delete card.where;
  return Object.assign(card, { state: HERE });
}

/** The state of a coin that is elsewhere for this reason. */
export const awayFor = (why) => AWAY[why] ?? 'away';
const stateOf = ({ kind, how }) => (kind === 'lost' ? 'missing' : awayFor(how));

/** A coin of somebody else's that is with us. */
export const lent = ({ theirs, state }) => Boolean(theirs) && ['on memo', 'on consignment'].includes(state);

/** The moves of an owner's card, oldest first; a lone sale stands on a card under `sale` alone. */
export function movesOf({ own, pieces }) {
  if (own.moves) return own.moves;
  if (!own.sale) return [];
  const { fact, to, date, price, gain } = own.sale;
  return [{ fact, kind: 'sale', date, with: to, how: '', cents: price, gain, ...(pieces ? { pieces } : {}) }];
}

/** {left, missing, state, base, out: entry → pieces} after `moves` of a record of so many pieces; null: it cannot have been. */
export function read(pieces, moves, theirs = false) {
  const now = { pieces, left: pieces, missing: 0, state: HERE, base: HERE, theirs: false, out: new Map() };
  for (const move of moves) if (STEPS[stepOf(move)](now, { ...move, pieces: move.pieces ?? 1 }, theirs) === false) return null;
  return now;
}

const stepOf = ({ kind, way }) => (GOES[kind] ? 'out' : way === 'in' ? 'theirs' : kind === 'memo' || kind === 'away' ? 'off' : kind);

const STEPS = {
  out(now, { fact, kind, pieces }) {
    if (pieces > now.left + now.missing) return false;
    const here = Math.min(now.left, pieces);
    now.left -= here;
    now.missing -= pieces - here; // what is sold was found
    now.out.set(fact, pieces);
    if (!now.left) now.state = now.missing ? 'missing' : GOES[kind];
    return true;
  },
  return(now, { of, pieces }) {
    const gone = now.out.get(of) ?? 0;
    if (gone < pieces) return false;
    if (gone > pieces) now.out.set(of, gone - pieces);
    else now.out.delete(of);
    if (!now.left) now.state = now.base;
    now.left += pieces;
    return true;
  },
  off(now, move) {
    if (!now.left || now.state !== now.base) return false;
    now.state = stateOf(move);
    return true;
  },
  back(now) {
    if (now.left && now.state !== now.base) now.state = now.base;
    else if (now.missing) {
      if (!now.left) now.state = now.base;
      [now.left, now.missing] = [now.left + now.missing, 0];
    } else if (now.theirs && now.left) [now.left, now.state] = [0, 'returned'];
    else return false;
    return true;
  },
  lost(now, { pieces }) {
    if (pieces > now.left) return false;
    [now.left, now.missing] = [now.left - pieces, now.missing + pieces];
    if (!now.left) now.state = 'missing';
    return true;
  },
  theirs(now, move, still) { // one that was bought since is read as ours from here on
    Object.assign(now, { left: now.pieces, missing: 0, theirs: still, out: new Map(), base: still ? stateOf(move) : HERE });
    now.state = now.base;
    return true;
  },
  withdrawn: (now) => now.left > 0,
};

const standing = (card, moves) => read(card.pieces ?? 1, moves, Boolean(card.theirs));

/** Pieces that are missing, as far as this phone can tell. */
export function missing(card) {
  if (!card.pieces) return card.state === 'missing' ? 1 : 0;
  return (card.own ? standing(card, movesOf(card))?.missing : 0) ?? 0;
}

/** One more move of an owner's card: {kind, fact, date, …}. False, and nothing changed, where it does not follow. */
export function move(card, line) {
  const { fact, kind, date, how = '', cents = null, ...more } = line;
  const made = { fact, kind, date, with: line.with ?? '', how, cents, ...(card.pieces ? { pieces: line.pieces ?? (card.left || card.pieces) } : {}) };
  for (const name of ['of', 'way', 'due', 'gain']) if (more[name] !== undefined) made[name] = more[name];
  const [before, left] = [movesOf(card), card.left];
  if (!settle(card, [...before, made])) return false;
  if (card.own.units) card.own.units = parts(card, before, made, line.from, left);
  if (!card.own.units) delete card.own.units; // what is left of which purchase is the desk's to say again
  if (card.pieces && card.own.loss_basis !== undefined) lessBasis(card, left);
  return true;
}

/** An owner's card without the moves of an entry. False, and nothing changed, where a later one rests on it. */
export function unmove(card, fact) {
  if (!settle(card, movesOf(card).filter((one) => one.fact !== fact))) return false;
  delete card.own.units;
  if (card.pieces) delete card.own.loss_basis;
  return true;
}

function settle(card, moves) {
  const now = standing(card, moves);
  if (!now) return false;
  const { own } = card;
  card.state = now.state;
  if (card.pieces) {
    card.left = now.left;
    delete own.cost_left; // divided at the desk
  }
  const at = moves.findLast((one) => ['memo', 'away', 'lost'].includes(one.kind) && stateOf(one) === now.state);
  if (at) card.where = { with: at.with, date: at.date, why: at.how, ...(at.due ? { due: at.due } : {}) };
  else delete card.where;
  const sold = now.state === 'sold' ? moves.findLast((one) => GOES[one.kind] === 'sold' && now.out.has(one.fact)) : null;
  if (!sold) own.sale = null;
  else if (own.sale?.fact !== sold.fact) own.sale = saleOf(sold);
  if (moves.some((one) => one.kind !== 'sale') || moves.length > 1) own.moves = moves;
  else delete own.moves;
  return true;
}

// What a move tells of its sale; the rest comes from the desk.
const saleOf = ({ fact, cents, with: to, date, gain, pieces }) => ({
  fact, price: cents, costs: [], to, date, show: null, payment: null, note: '', gain: gain ?? null, ...(pieces ? { pieces } : {}),
});

// --- the pieces of a lot, by the purchases that they came from: rows {fact, left, costs: cents line by line, or null} --------

/** What the next `leaving` of `pieces` alike pieces cost together; the odd cents lie on those that leave first (money/lots.py). */
export function share(cents, pieces, leaving) {
  const odd = cents % pieces;
  return leaving * ((cents - odd) / pieces) + Math.min(leaving, odd);
}

/** {taken, rest} where `pieces` leave: those of the entry `from`, or the first in. Null where there are not so many. */
export function draw(units, pieces, from) {
  const [taken, rest] = [[], []];
  let wanted = pieces;
  for (const [at, unit] of units.entries()) {
    const count = from && unit.fact !== from ? 0 : Math.min(unit.left, wanted);
    const part = (left, cost) => ({ at, ...unit, left, costs: unit.costs && unit.costs.map(cost) });
    wanted -= count;
    if (count) taken.push(part(count, (cents) => share(cents, unit.left, count)));
    if (count < unit.left) rest.push(part(unit.left - count, (cents) => cents - share(cents, unit.left, count)));
  }
  return wanted ? null : { taken, rest };
}

// What is left of each purchase after one move more; null where this phone cannot tell. What left is kept with its move.
function parts(card, before, made, from, left) {
  const [{ units }, { kind, pieces }] = [card.own, made];
  if (GOES[kind] || kind === 'lost') {
    const drawn = pieces > left ? null : draw(units, pieces, from);
    made.took = drawn?.taken;
    return drawn && drawn.rest;
  }
  if (kind === 'return') {
    const sale = before.find((one) => one.fact === made.of);
    const drawn = sale?.took ? draw(sale.took, pieces) : null;
    if (drawn) sale.took = drawn.rest;
    return drawn && together(units, drawn.taken);
  }
  if (card.left === left) return units;
  const found = before.filter((one) => one.kind === 'lost'); // what was missing is here again
  if (!found.every((one) => one.took)) return null;
  const back = found.flatMap(({ took }) => took);
  for (const one of found) one.took = [];
  return together(units, back);
}

const together = (units, more) => [...units, ...more].sort((a, b) => (a.at ?? 0) - (b.at ?? 0));

// The basis for a loss of what is left, after pieces left; what came back is divided at the desk.
function lessBasis(card, before) {
  const { own, left } = card;
  if (left > before || !left) delete own.loss_basis;
  else if (own.loss_basis !== null && left < before) own.loss_basis -= share(own.loss_basis, before, before - left);
}
