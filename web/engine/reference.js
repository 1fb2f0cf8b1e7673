// What phone and desk must both know: kinds of entry, grades, denominations, types. Kept for use offline.
import { get, write } from './db.js';
import { call } from './net.js';

export let reference = null;

export async function load() {
  reference = (await get('meta', 'reference')) ?? null;
}

/** Fetch it, if this phone has none yet. */
export const first = () => (reference ? null : fetchIt());

/** Fetch it where the desk has another one than this. */
export const renew = (tag) => (!tag || reference?.hash === tag ? null : fetchIt());

async function fetchIt() {
  const fresh = await call('GET', '/api/reference');
  await write(['meta'], (tx) => tx.store.put(fresh, 'reference'));
  reference = fresh;
}

export const forget = () => { reference = null; };

const denomination = (key) => reference?.denominations?.find((one) => one.key === key);

export const names = {
  denomination: (key) => denomination(key)?.name ?? key ?? '',
  type: (key) => reference?.types?.[key]?.name ?? '',
  /** [name, number] of a grade as the ladder writes it, marks and all: `MS-64 RB`. */
  grade(text = '') {
    const [step, ...marks] = text.split(' ');
    const { ladder = [], proofs = [] } = reference?.grades ?? {};
    const found = text && [...ladder, ...proofs].find(([written]) => written === step);
    return found ? [[found[1], ...marks].join(' '), found[2]] : ['', null];
  },
};

/** The order of the trade: denominations by value, types by their first year; what is not known comes last. */
export const rank = {
  denom: (key) => denomination(key)?.order ?? 9999,
  type: (key) => reference?.types?.[key]?.years?.[0] ?? 9999,
};
