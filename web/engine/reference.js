// What phone and desk must both know: kinds of entry, grades, denominations, types. Kept for use offline.
import { get, write } from './db.js';
import { call } from './net.js';
import { unpacked } from './unpack.js';

export let reference = null;

export async function load() {
  const kept = await get('meta', 'reference');
  reference = kept?.checks ? unpacked(kept) : kept ?? null; // an app of before kept it whole
}

/** Fetch it, if this phone has none yet. */
export const first = () => (reference ? null : fetchIt());

/** Fetch it where the desk has another one than this. */
export const renew = (tag) => (!tag || reference?.hash === tag ? null : fetchIt());

async function fetchIt() {
  const fresh = await call('GET', '/api/reference');
  await write(['meta'], (tx) => tx.store.put(fresh, 'reference'));
  reference = unpacked(fresh);
}

export const forget = () => { reference = null; };

const denomination = (key) => reference?.denominations?.find((one) => one.key === key);

export const names = {
  denomination: (key) => denomination(key)?.name ?? key ?? '',
  type: (key) => reference?.types?.[key]?.name ?? '',
  /** [name, number] of a grade as the ladder writes it: `MS-64+ RB` is Mint State 64 plus, red-brown. */
  grade(text = '') {
    const { ladder = [], proofs = [], marks = [] } = reference?.grades ?? {};
    const [, step, plus, rest] = /^(\S+?)(\+?)(?:\s+(.*))?$/.exec(text) ?? [];
    const found = step && [...ladder, ...proofs].find(([written]) => written === step);
    if (!found) return ['', null];
    const said = (key) => `, ${marks.find((one) => one.key === key)?.name ?? key}`;
    const more = !rest ? '' : rest.startsWith('Details') ? ` d${rest.slice(1)}` : rest.split(' ').map(said).join('');
    return [`${found[1]}${plus ? ' plus' : ''}${more}`, found[2]];
  },
};

/** The order of the trade: denominations by value, types by their first year; what is not known comes last. */
export const rank = {
  denom: (key) => denomination(key)?.order ?? 9999,
  type: (key) => reference?.types?.[key]?.years?.[0] ?? 9999,
};
