// What this phone knows of itself: book, device, cursor, numbers. One record, changed only in transactions.
import { get, write } from './db.js';
import { fail } from './net.js';

/** The record, or null on a phone that is not paired. */
export const read = () => get('meta', 'phone').then((found) => found ?? null);

/** A phone that starts with nothing, from the desk's answer to hello or pair. */
export function fresh(hello) {
  return {
    ...known(hello), cursor: 0, ready: false, n: hello.device.next_n - 1, order: 0, prefix: 2, digest: { count: 0, sum: 0 },
    wiped: hello.device.next_n > 1, lastSync: null, skewMs: 0, notices: [],
  };
}

/** The part of a hello that is about book and device. */
export function known({ book, bookName, currency, epoch, device: { id, name, role } }) {
  return { book, bookName, currency, epoch, device: { id, name, role } };
}

/** Change the record inside a transaction that has `meta`. `change(phone)` may alter it in place. */
export async function changeIn(tx, change) {
  const meta = tx.objectStore('meta');
  const phone = await meta.get('phone');
  if (!phone) throw fail('not_paired', 'This phone is not paired with a desk.');
  const result = await change(phone);
  await meta.put(phone, 'phone');
  return result;
}

export const change = (work) => write(['meta'], (tx) => changeIn(tx, work));
export const keep = (phone) => write(['meta'], (tx) => tx.store.put(phone, 'phone'));

/** Tell the person something once: {code, text}. */
export function notice(phone, code, text) {
  phone.notices = [...phone.notices.filter((one) => one.code !== code), { code, text, when: Date.now() }];
}
