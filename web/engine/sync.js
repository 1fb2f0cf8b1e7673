// When to talk to the desk, and in what order: first sync, exchanges until nothing is left, photos, reference.
import { exchange } from './exchange.js';
import { call, fail } from './net.js';
import { change as changePhone, notice, read } from './phone.js';
import * as photos from './photos.js';
import * as reference from './reference.js';
import { fill } from './snapshot.js';

const FIRST_MS = 100;
const LAST_MS = 60_000;

/** What the rest of the app is told: set by engine.js. */
export const listeners = { progress() {}, rows() {}, filled() {}, state() {}, revoked() {} };

let running = null;
let timer = 0;
let wait = FIRST_MS;
let againAsked = false;
let mended = false; // a digest that differed was mended once already

/** Talk to the desk now. Resolves when done; rejects with {code} where it did not work. One at a time, over all tabs. */
export function sync() {
  if (running) {
    againAsked = true;
    return running;
  }
  clearTimeout(timer);
  running = alone(round).then(
    () => { wait = FIRST_MS; later(LAST_MS); listeners.state({ online: true, syncing: false, unknown: false, trouble: null }); },
    (error) => { failed(error); throw error; },
  ).finally(() => {
    running = null;
    if (againAsked) { againAsked = false; soon(); }
  });
  return running;
}

/** Talk to the desk shortly: something changed, or the way may be free again. */
export function soon() {
  wait = FIRST_MS;
  if (running) againAsked = true;
  else later(0);
}

function later(ms) {
  clearTimeout(timer);
  timer = setTimeout(() => sync().catch(() => {}), ms);
}

function failed(error) {
  listeners.state({ online: error.code !== 'offline', syncing: false, progress: null, trouble: error.code === 'offline' ? null : error.message,
    unknown: error.code === 'not_paired' });
  if (error.code === 'revoked') return listeners.revoked();
  if (['not_paired', 'other_book', 'unpaired'].includes(error.code)) return; // nothing to gain by asking again
  later(wait * (0.75 + Math.random() / 2));
  wait = Math.min(LAST_MS, wait * 2);
}

function alone(work) {
  if (!navigator.locks) return work();
  return navigator.locks.request('exergue-sync', { ifAvailable: true }, (lock) => (lock ? work() : undefined)); // another tab does it
}

async function round() {
  let phone = await read();
  if (!phone) throw fail('unpaired', 'This phone is not paired with a desk.');
  listeners.state({ syncing: true });
  for (;;) {
    if (phone.cursor === 0) {
      await reference.renew((await call('GET', '/api/hello')).reference);
      await fill((progress) => listeners.progress(progress));
      listeners.filled();
    }
    const done = await exchange();
    listeners.rows(done.rows);
    await reference.renew(done.reference);
    phone = await read();
    if (done.more) continue;
    if (phone.cursor !== 0 && done.digest && !same(done.digest, phone.digest)) {
      if (mended) throw fail('digest', 'The cards of this phone and of the desk differ, and fetching them anew did not help.');
      mended = true;
      await changePhone((held) => {
        held.cursor = 0;
        notice(held, 'digest', 'The cards of this phone and of the desk differed. They were fetched anew.');
      });
      phone = await read();
      continue;
    }
    mended = false;
    break;
  }
  await photos.send();
}

const same = (a, b) => a.count === b.count && a.sum === b.sum;

/** Start the triggers: start, visible, online, another tab, and a timer in `later`. */
export function watch() {
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') soon(); });
  addEventListener('online', soon);
  addEventListener('pageshow', (event) => { if (event.persisted) soon(); });
  soon();
}
