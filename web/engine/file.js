// The entries that wait, as a file that the desk loads when the phone cannot reach it any more.
import { fail } from './net.js';
import { waiting } from './outbox.js';
import { read } from './phone.js';

/** A Blob of JSON {book, device, facts: [{id, n, kind, when, body}]}. The entries go on waiting here, too. */
export async function file() {
  const phone = await read();
  if (!phone) throw fail('unpaired', 'This phone is not paired with a desk.');
  const facts = (await waiting()).map(({ id, n, kind, when, body }) => ({ id, n, kind, when, body }));
  return new Blob([JSON.stringify({ book: phone.book, device: phone.device.id, saved: Date.now(), facts })], { type: 'application/json' });
}
