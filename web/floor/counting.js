// One round of counting on this phone: what is expected, what was seen, and what a label means that is scanned now.
import * as floor from '../engine/at-show.js';
import { coinTitle } from '../parts/slip.js';
import { showId } from '../parts/words.js';
import { held, put } from './queue.js';
import { signal } from './signal.js';

const EXPECTED_MS = 60_000; // how often what is expected is read anew while others sell

/** `changed(told)` after a scan was judged; `failed(error)` where an entry could not be kept. `show` is null for the whole stock. */
export function makeCounting(engine, show, round, { changed, failed }) {
  let coins = new Map();
  let scans = new Map();
  let seen = 0; // of those that should be there
  let read = 0;
  let turn = 0;

  const due = (id) => coins.get(id)?.due === true;
  const rowOf = (id) => coins.get(id)?.card;

  async function load() {
    const mine = ++turn;
    const [found, there] = await Promise.all([Date.now() - read > EXPECTED_MS ? floor.expected(show) : coins, floor.scansOf(round)]);
    if (mine !== turn) return;
    if (found !== coins) read = Date.now();
    for (const { kind, head, row } of held()) if (kind === 'count' && head.count === round) add(there, row.coin, head.place ?? '', row.how);
    [coins, scans] = [found, there];
    seen = [...scans.keys()].filter(due).length;
  }

  function add(to, coin, place, how) {
    if (!to.has(coin)) to.set(coin, []);
    to.get(coin).push({ place, how: how ?? 'scan', when: Date.now(), by: engine.state.device.id });
  }

  function take(id, place = '', how = 'scan') {
    const before = scans.get(id);
    const same = before?.some((scan) => !place || scan.place === place);
    if (!same) {
      if (!before && due(id)) seen += 1;
      add(scans, id, place, how);
      const head = { count: round, ...(show ? { show } : {}), ...(place ? { place } : {}) };
      put(engine, { kind: 'count', head, list: 'seen', row: { coin: id, how } }, failed);
    }
    judge(id, before, same);
  }

  function judge(id, before, same) {
    const card = rowOf(id);
    const name = card ? coinTitle(card) : showId(id);
    if (before) return tell('again', same ? 'Already counted' : `Counted in ${before[0].place || 'no box'} before`, name);
    if (due(id)) return tell('expected', 'Expected', name);
    return strange(id);
  }

  async function strange(id) {
    const card = await engine.card('coin', id);
    if (card) {
      const why = !floor.isHere(card) ? `The book says ${card.state}` : show ? 'In the book, not packed for this show' : 'In the book';
      tell('unexpected', 'Unexpected', `${coinTitle(card)}. ${why}.`);
    } else {
      const blank = await engine.card('blank', id);
      tell('unknown', 'Unknown label', `${showId(id)}: ${blank ? 'a blank label of this book' : 'no coin on this phone has it'}.`);
    }
  }

  function tell(what, word, more) {
    signal(what);
    changed({ what, word, more });
  }

  return {
    load, take,
    get seen() { return seen; },
    get expected() { return coins.size ? [...coins.values()].filter((coin) => coin.due).length : 0; },
    get labels() { return scans.size; },
    /** [{id, card, box}] that should be there and were not seen. */
    missing: () => [...coins].filter(([id, coin]) => coin.due && !scans.has(id)).map(([id, coin]) => ({ id, card: coin.card, box: coin.box })),
    /** [[box, seen, expected]…], by name. */
    boxes() {
      const found = new Map();
      for (const [id, coin] of coins) {
        if (!coin.due || !coin.box) continue;
        const sums = found.get(coin.box) ?? found.set(coin.box, [0, 0]).get(coin.box);
        if (scans.has(id)) sums[0] += 1;
        sums[1] += 1;
      }
      return [...found].map(([box, [there, all]]) => [box, there, all]).sort((a, b) => a[0].localeCompare(b[0], 'en', { numeric: true }));
    },
  };
}
