// What phone and desk must both know: kinds of entry, grades, denominations, types. Kept for use offline.
import { get, write } from './db.js';
import { call } from './net.js';
import { changeIn } from './phone.js';

export let reference = null;

export async function load() {
  reference = (await get('meta', 'reference')) ?? null;
  return reference;
}

/** Fetch it where the desk has another one than this. True if it changed. */
export async function renew(tag) {
  if (!tag || reference?.hash === tag) return false;
  const fresh = await call('GET', '/api/reference');
  await write(['meta'], async (tx) => {
    tx.store.put(fresh, 'reference');
    await changeIn(tx, (phone) => { phone.referenceTag = fresh.hash; });
  });
  reference = fresh;
  return true;
}

export const names = {
  denomination: (key) => reference?.denominations?.find((one) => one.key === key)?.name ?? key ?? '',
  type: (key) => reference?.types?.[key]?.name ?? '',
};

export const rank = (denom) => reference?.denominations?.find((one) => one.key === denom)?.order ?? 999;
