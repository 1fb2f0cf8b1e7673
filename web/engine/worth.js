// The desk's estimates, kept on the owner's phone for use offline. They are no cards: fetched whole after a sync.
import { get, withDb, write } from './db.js';
import { ask } from './net.js';

let running = null;
let next = null; // the fetch that begins when the one under way is done: what that one brings may be older than the last sync

/** Fetch them where the desk has others than this phone. Resolves to whether anything changed; rejects as `ask` does. */
export function renew() {
  if (!running) return (running = fetchThem().finally(() => { running = null; }));
  return (next ??= running.catch(() => {}).then(() => { next = null; return renew(); }));
}

async function fetchThem() {
  const held = await get('meta', 'worth');
  let fresh;
  let tag;
  try {
    const response = await ask('GET', '/api/worth', undefined, held ? { 'If-None-Match': held.tag } : {});
    tag = response.headers.get('ETag');
    fresh = await response.json();
  } catch (error) {
    if (error.status === 304) return false;
    throw error;
  }
  if (fresh.format !== 1) return false;
  await write(['meta'], async (tx) => {
    const { types, ...head } = fresh;
    await tx.store.delete(IDBKeyRange.bound('worth/', 'worth/\uffff'));
    for (const [type, one] of Object.entries(types)) tx.store.put(one, `worth/${type}`);
    await tx.store.put({ ...head, tag }, 'worth');
  }, { relaxed: true });
  return true;
}

/** {made, sales, first, last, tables, melt} of a type; null: no tables on this phone; without `sales`: no evidence. */
export async function ofType(type) {
  const [head, one] = await Promise.all([get('meta', 'worth'), get('meta', `worth/${type}`)]);
  return head ? { made: head.made, ...one } : null;
}

/** Names the tables that are held: others have another name. '' for none. */
export const tag = () => get('meta', 'worth').then((head) => head?.tag ?? '');

/** {made, types: type → {sales, issues, tables …}} of several types; null: no tables on this phone, or none that a plan can use. */
export async function ofTypes(types) {
  const [head, ...found] = await withDb((db) => {
    const { store } = db.transaction('meta');
    return Promise.all([store.get('worth'), ...types.map((type) => store.get(`worth/${type}`))]);
  });
  if (!head || found.some((one) => one?.sales && !one.issues)) return null; // the second: of a desk before plans
  return { made: head.made, types: new Map(types.map((type, n) => [type, found[n]]).filter(([, one]) => one)) };
}

/** {cents, lines [{what, cents}], why, made} for a want, or null. */
export async function ceiling(want) {
  const head = await get('meta', 'worth');
  const found = head?.ceilings[want];
  return found ? { ...found, made: head.made } : null;
}

/** The rows of a coin's issue, else of the type's usual one of the same designation; null where there are none. */
export function rowsFor(held, card) {
  const marks = group(card.grade);
  const exact = held?.tables?.[`${card.year ?? ''}/${card.mint ?? ''}/${marks}`];
  return exact ?? held?.tables?.[`//${marks}`] ?? null;
}

/** Strike and designations of a written grade, with “!” for a problem coin: as the desk names its tables. */
export function group(grade = '') {
  const strike = /^(PF|SP)\b/.exec(grade)?.[1];
  const troubled = / Details\b/.test(grade) && !/ net /.test(grade);
  const marks = grade.split(' Details')[0].split(' ').slice(1);
  return `${[...(strike ? [strike] : []), ...marks].join(' ')}${troubled ? '!' : ''}`;
}
