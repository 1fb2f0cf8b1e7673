// The search over this phone's coins: packs, overlay and painted cards brought together, loaded when first asked.
import { indexFrom, newest, overlayCoins } from './packs.js';
import { lineOf } from './lines.js';
import { breath } from './idle.js';

const PACKS = 8; // read between two breaths: some 800 coins, so that the scanner and the screen stay quick

let finder = null;
let loading = null;
let later = []; // changes that came while it was loading
let turn = 0; // goes up when what is being loaded is out of date
let painted = new Set(); // IDs whose line shows waiting entries

/** Resolves to the finder. `rank`: see reference.js; `paintedCards()` → [[id, card|null]] of waiting entries. */
export function load(rank, paintedCards) {
  loading ??= fill(rank, paintedCards).catch((error) => {
    reset();
    throw error;
  });
  return loading;
}

async function fill(rank, paintedCards) {
  const mine = turn;
  const { Finder } = await import('./finder.js');
  const made = new Finder(rank);
  for (let after = '', last = 0; ; after = last) {
    const packs = await indexFrom(after, PACKS);
    if (!packs.length) break;
    made.add(packs.map(([, text]) => text));
    last = packs.at(-1)[0];
    await breath();
  }
  made.sort();
  for (const { id, seq, card } of await overlayCoins()) made.change(id, card && lineOf(card, seq));
  if (mine !== turn) return load(rank, paintedCards); // one search, whoever began it
  for (const rows of later) apply(made, rows);
  [later, finder] = [[], made];
  const cards = await paintedCards();
  if (mine !== turn) return load(rank, paintedCards);
  for (const [id, card] of cards) if (!painted.has(id)) paint(id, card); // else it was painted meanwhile, as it is now
  return made;
}

/** Forget it all: after a first sync, or when another tab changed much. */
export function reset() {
  turn += 1;
  [finder, loading, later, painted] = [null, null, [], new Set()];
}

/** Changed cards from the desk: [[seq, kind, id, card|null]]. */
export function changed(rows) {
  if (finder) apply(finder, rows);
  else if (loading) later.push(rows);
}

function apply(to, rows) {
  for (const [seq, kind, id, card] of rows) if (kind === 'coin') to.change(id, card && lineOf(card, seq));
}

function paint(id, card) {
  finder.change(id, card && card.state !== 'void' ? lineOf(card, 0) : null);
  painted.add(id);
}

/** Show waiting entries on top of these coins; what waits no more shows its own card again: [[id, card|null, waits]]. */
export async function repaint(coins) {
  if (!finder) return;
  for (const [id, card, waits] of coins) {
    if (waits) {
      paint(id, card);
      continue;
    }
    painted.delete(id);
    const newer = await newest(id);
    if (newer) finder?.change(id, newer.card && lineOf(newer.card, newer.seq));
    else finder?.restore(id);
  }
}

/** Whether a coin's row shows entries that wait. */
export const isPainted = (id) => painted.has(id);
