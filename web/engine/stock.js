// The search over this phone's coins: packs, overlay and painted cards brought together, loaded when first asked.
import { indexPacks, newest, overlayCoins } from './packs.js';
import { Finder } from './finder.js';
import { lineOf } from './lines.js';

let finder = null;
let loading = null;
let painted = new Set(); // IDs whose line shows waiting entries

/** `rank(denom)`, and `paintedCards()` → [[id, card|null]] for coins with waiting entries. */
export async function load(rank, paintedCards) {
  loading ??= (async () => {
    const [texts, newer] = await Promise.all([indexPacks(), overlayCoins()]);
    finder = new Finder(texts, rank);
    for (const { id, seq, card } of newer) finder.change(id, card && lineOf(card, seq));
    await repaint(paintedCards);
    return finder;
  })().catch((error) => {
    loading = null;
    throw error;
  });
  return loading;
}

/** Forget it all: after a first sync, or when another tab folded. */
export function reset() {
  finder = null;
  loading = null;
  painted = new Set();
}

/** Changed cards from the desk. */
export function changed(rows) {
  if (!finder) return;
  for (const [seq, kind, id, card] of rows) if (kind === 'coin') finder.change(id, card && lineOf(card, seq));
}

/** Show waiting entries on top; coins that wait no more show their own card again. */
export async function repaint(paintedCards) {
  if (!finder) return;
  const now = new Map(await paintedCards());
  for (const id of painted) {
    if (now.has(id)) continue;
    const newer = await newest(id);
    if (newer) finder.change(id, newer.card && lineOf(newer.card, newer.seq));
    else finder.restore(id);
  }
  for (const [id, card] of now) finder.change(id, card && card.state !== 'void' ? lineOf(card, 0) : null);
  painted = new Set(now.keys());
}

/** Whether a coin's row shows entries that wait. */
export const isPainted = (id) => painted.has(id);
