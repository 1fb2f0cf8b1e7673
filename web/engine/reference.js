// What phone and desk must both know: kinds of entry, grades, denominations, types. Kept for use offline.
import { get, write } from './db.js';
import { call } from './net.js';
import { unpacked } from './unpack.js';
import { makeRungs } from '../plan/rungs.js';

let kept = null; // as it lies on the phone: JSON, which a scanner that opens first does not wait to have read
let made = null; // the same, as screens read it

export async function load() {
  [kept, made] = [(await get('meta', 'reference')) ?? null, null];
}

/** Null before the first sync. Read when first asked for. */
export function reference() {
  if (!made && kept) {
    const pack = typeof kept === 'string' ? JSON.parse(kept) : kept; // an app of before kept it as objects,
    made = pack.checks ? unpacked(pack) : pack; // an older one unpacked
    kept = null;
  }
  return made;
}

/** Fetch it, if this phone has none yet. */
export const first = () => (reference() ? null : fetchIt());

/** Fetch it where the desk has another one than this. */
export const renew = (tag) => (!tag || reference()?.hash === tag ? null : fetchIt());

async function fetchIt() {
  const text = JSON.stringify(await call('GET', '/api/reference'));
  await write(['meta'], (tx) => tx.store.put(text, 'reference'));
  [kept, made] = [text, null];
}

export const forget = () => { [kept, made] = [null, null]; };

const denomination = (key) => reference()?.denominations?.find((one) => one.key === key);

export const names = {
  denomination: (key) => denomination(key)?.name ?? key ?? '',
  type: (key) => reference()?.types?.[key]?.name ?? '',
  /** [name, number] of a grade as the ladder writes it: `MS-64+ RB` is Mint State 64 plus, red-brown. */
  grade(text = '') {
    const { ladder = [], proofs = [], marks = [] } = reference()?.grades ?? {};
    const [, step, plus, rest] = /^(\S+?)(\+?)(?:\s+(.*))?$/.exec(text) ?? [];
    const found = step && [...ladder, ...proofs].find(([written]) => written === step);
    if (!found) return ['', names.gradeNumber(text)];
    const said = (key) => `, ${marks.find((one) => one.key === key)?.name ?? key}`;
    const more = !rest ? '' : rest.startsWith('Details') ? ` d${rest.slice(1)}` : rest.split(' ').map(said).join('');
    return [`${found[1]}${plus ? ' plus' : ''}${more}`, names.gradeNumber(text)];
  },
  /** The number of the ladder that counts of a written grade, the net grade's where there is one; null where it says none. */
  gradeNumber: (text) => makeRungs(reference()?.grades ?? {}).number(text, null),
};

/** The order of the trade: denominations by value, types by their first year; what is not known comes last. */
export const rank = {
  denom: (key) => denomination(key)?.order ?? 9999,
  type: (key) => reference()?.types?.[key]?.years?.[0] ?? 9999,
};
