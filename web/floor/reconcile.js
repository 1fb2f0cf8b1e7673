// A round of counting against what this phone expects, for when the desk cannot be asked. Shallow: where both know, the desk's story stands
// (server/exergue/shows/stories.py). Keys and actions are the same.
import { showId } from '../parts/words.js';

const CAME = { packed: 'Packed', bought: 'Bought at the show', 'traded in': 'Traded in at the show', 'in the book': 'In the book' };
const GONE = { sold: 'sale', traded: 'trade', missing: 'lost', returned: 'back' };

/**
 * {expected, seen, missing, unexpected, differences}. `coins`: Map of ID → {card, how, box, due}, with every scanned coin that is known;
 * `scans`: Map of ID → [{place, when, by}], oldest first; `asked`: {round, show, day, clock(ms), who(by), blanks, settled: Map}.
 */
export function reconcile(coins, scans, asked) {
  const due = [...coins].filter(([, coin]) => coin.due).map(([id]) => id);
  const dueSet = new Set(due);
  const missing = due.filter((id) => !scans.has(id)).sort();
  const unexpected = [...scans.keys()].filter((id) => !dueSet.has(id)).sort();
  const last = Math.max(0, ...[...scans.values()].map((several) => several.at(-1).when));
  const found = [
    ...missing.map((id) => absent(id, coins.get(id), last, asked)),
    ...unexpected.map((id) => strange(id, coins.get(id), scans.get(id), asked)),
    ...due.filter((id) => scans.has(id)).sort().map((id) => elsewhere(id, coins.get(id), scans.get(id), asked)).filter(Boolean),
  ];
  return { expected: due.length, seen: scans.size, missing: missing.length, unexpected: unexpected.length, differences: found.map((one) => settled(one, asked)) };
}

const key = ({ round }, kind, id) => `${round}/${kind.replaceAll(' ', '-')}/${id}`;
const atShow = ({ show }) => (show ? { show } : {});
const difference = (asked, kind, coin, story, more = {}) => ({ key: key(asked, kind, coin), kind, coin, story, actions: [], explained: false, ...more });

function settled(one, asked) {
  const words = { name: 'settle', says: 'Explain it in words', kind: 'settle', body: { ...atShow(asked), key: one.key, note: '' }, asks: true };
  const note = asked.settled.get(one.key) ?? null;
  return { ...one, settled: note, open: !one.explained && note === null, actions: [...one.actions, words] };
}

/** The entry of this phone by which a coin came, moved or went and that the desk has not answered: {when} or undefined. */
const waiting = ({ card }, kinds) => card?.waiting?.findLast((fact) => kinds.includes(fact.kind));

function absent(id, coin, last, asked) {
  const came = waiting(coin, ['purchase', 'trade']);
  if (came && came.when > last && coin.how !== 'packed') {
    return difference(asked, 'missing', id, `${CAME[coin.how]} at ${asked.clock(came.when)} on this phone, after the count: nobody could have scanned it.`, { explained: true });
  }
  const where = !coin.box ? '' : coin.how === 'packed' ? ` into ${coin.box}` : coin.how === 'in the book' ? `, in ${coin.box}` : ` for ${coin.box}`;
  const day = { date: asked.day };
  const actions = [
    ...(coin.how === 'packed' ? [{ name: 'unpack', says: 'It stayed at home', kind: 'pack', body: { show: asked.show, coins: [id], undo: true } }] : []),
    { name: 'lost', says: 'It is missing', kind: 'lost', body: { coin: id, how: 'missing', ...day } },
    { name: 'sale', says: 'It was sold', kind: 'sale', body: { coin: id, ...day, ...atShow(asked) }, asks: true },
  ];
  return difference(asked, 'missing', id, `${CAME[coin.how]}${where}, and not counted.`, { actions });
}

function strange(id, coin, scans, asked) {
  const seen = scans.at(-1);
  const counted = `counted${seen.place ? ` in ${seen.place}` : ''} at ${asked.clock(seen.when)} on ${asked.who(seen.by)}`;
  if (!coin?.card) {
    const story = asked.blanks.has(id) ? `A printed label whose coin nobody entered; ${counted}. Perhaps a coin that was bought there.`
      : `This phone knows no coin under ${showId(id)}; ${counted}.`;
    return difference(asked, 'unknown', id, story, { actions: [{ name: 'purchase', says: 'Enter its purchase', kind: 'purchase', asks: true, body: {} }] });
  }
  if (coin.here) {
    const story = `In the book${coin.card.place ? `, in ${coin.card.place}` : ''}, and never packed for this show; ${counted}.`;
    const body = { show: asked.show, coins: [id], ...(seen.place ? { box: seen.place } : {}) };
    return difference(asked, 'never packed', id, story, { actions: [{ name: 'pack', says: 'It came along', kind: 'pack', body }] });
  }
  return gone(id, coin, seen, counted, asked);
}

function gone(id, coin, seen, counted, asked) {
  const { card } = coin;
  const entry = waiting(coin, ['sale', 'ticket', 'trade', 'lost', 'away', 'memo', 'back']);
  const state = card.state.charAt(0).toUpperCase() + card.state.slice(1);
  const at = entry ? `${state} at ${asked.clock(entry.when)} on this phone` : `${state} by the book`;
  if (entry && entry.when > seen.when) return difference(asked, 'gone', id, `${at}; ${counted}, before it went.`, { explained: true });
  const fact = entry?.id ?? card.own?.sale?.fact;
  const actions = ['sold', 'traded'].includes(card.state)
    ? [...(fact ? [{ name: 'void', says: 'That entry was wrong: undo it', kind: 'void', body: { of: fact } }] : []),
      ...(fact && card.state === 'sold' ? [{ name: 'return', says: 'The buyer gave it back', kind: 'return', body: { of: fact, coins: [id] }, asks: true }] : [])]
    : GONE[card.state] === 'back' ? [] : [{ name: 'back', says: 'It is back', kind: 'back', body: { coins: [id], date: asked.day } }];
  return difference(asked, 'gone', id, `${at}, but ${counted}.`, { actions });
}

function elsewhere(id, coin, scans, asked) {
  const places = new Map(scans.filter((scan) => scan.place).map((scan) => [scan.place, scan]));
  const seen = scans.at(-1);
  const actions = !seen.place || seen.place === coin.box ? [] : coin.how === 'packed'
    ? [{ name: 'box', says: `It is in ${seen.place} now`, kind: 'pack', body: { show: asked.show, coins: [id], box: seen.place } }]
    : [{ name: 'place', says: `It is in ${seen.place} now`, kind: 'coin.edit', body: { coin: id, base: { place: coin.box }, set: { place: seen.place } } }];
  if (places.size > 1) {
    const where = [...places].map(([place, scan]) => `${place} at ${asked.clock(scan.when)} on ${asked.who(scan.by)}`).join(' and ');
    return difference(asked, 'twice', id, `Counted in ${where}: moved meanwhile, or two coins carry this label.`, { actions });
  }
  if (!seen.place || !coin.box || seen.place === coin.box) return null;
  return difference(asked, 'place', id, `${CAME[coin.how]} in ${coin.box}, and counted in ${seen.place} at ${asked.clock(seen.when)} on ${asked.who(seen.by)}.`, { actions });
}
