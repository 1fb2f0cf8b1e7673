// When to talk to the desk, and in what order: first sync, exchanges until nothing is left, photos, reference.
import { exchange } from './exchange.js';
import { fail } from './net.js';
import { change as changePhone, notice, read } from './phone.js';
import * as photos from './photos.js';
import * as reference from './reference.js';
import { fill } from './snapshot.js';

const FIRST_MS = 100;
const LAST_MS = 60_000;
const TURN_MS = 90_000; // how long to wait for another tab that is at it
const LISTENER_MS = 20_000;
const VAIN = 5; // answers in a row that did not count
const FINAL = ['not_paired', 'other_book', 'unpaired', 'revoked']; // nothing to gain by asking again soon

/** What the rest of the app is told: set by engine.js. */
export const listeners = { progress() {}, rows() {}, taken() {}, filled() {}, state() {}, done() {}, revoked() {}, stranger() {} };

let running = null;
let next = null;
let timer = 0;
let wait = FIRST_MS;
let again = false;
let mended = false; // a digest that differed was mended once already
let watching = false;

/**
 * Talk to the desk now. Resolves when all is exchanged; rejects with {code} where it did not work. A call while one is
 * at work gets a turn of its own after it: what was entered meanwhile is in it.
 */
export function sync() {
  if (!running) return start();
  next ??= running.catch(() => {}).then(() => {
    next = null;
    return running ?? start();
  });
  return next;
}

function start() {
  clearTimeout(timer);
  running = alone(round).then(
    async () => {
      wait = FIRST_MS;
      later(LAST_MS);
      await tell('done', { online: true, trouble: null });
    },
    async (error) => {
      await failed(error);
      throw error;
    },
  ).finally(() => {
    running = null;
    if (again) soon();
    again = false;
  });
  return running;
}

/** Talk to the desk shortly: something changed, or the way may be free again. */
export function soon() {
  wait = FIRST_MS;
  if (running) again = true;
  else later(0);
}

function later(ms) {
  clearTimeout(timer);
  timer = setTimeout(() => sync().catch(() => {}), ms);
}

async function failed(error) {
  const offline = error.code === 'offline';
  if (FINAL.includes(error.code)) wait = LAST_MS;
  later(wait * (0.75 + Math.random() / 2)); // before anybody is told: who listens must not stop the next try
  wait = Math.min(LAST_MS, wait * 2);
  if (error.code === 'revoked') await tell('revoked');
  else await tell('done', { online: !offline, trouble: offline || error.code === 'unpaired' ? null : error.message, unknown: error.code === 'not_paired' });
}

/** Tell the rest of the app. What was exchanged is kept already: a listener that throws or hangs does not undo it. */
async function tell(name, ...what) {
  let timer = 0;
  const late = new Promise((_, reject) => { timer = setTimeout(() => reject(new Error(`${name} took too long`)), LISTENER_MS); });
  try {
    await Promise.race([listeners[name](...what), late]);
  } catch (error) {
    console.error(error);
  } finally {
    clearTimeout(timer);
  }
}

/** One tab at a time. A tab that the system put to sleep with the lock in its hand does not stop the others for ever. */
async function alone(work) {
  if (!navigator.locks) return work();
  let mine = false;
  try {
    return await navigator.locks.request('exergue-sync', { signal: AbortSignal.timeout(TURN_MS) }, () => {
      mine = true;
      return work();
    });
  } catch (error) {
    if (mine) throw error;
    return work();
  }
}

async function round() {
  if (!(await read())) await listeners.stranger();
  if (!(await read())) throw fail('unpaired', 'This phone is not paired with a desk.');
  listeners.state({ syncing: true });
  for (let vain = 0; vain < VAIN;) {
    const copied = (await read()).cursor === 0 && await copy();
    // The search is read anew once the exchange is under way, not before: both want this phone's one thread.
    const done = await exchange().finally(() => copied && tell('filled'));
    if (!done) {
      vain += 1;
      continue;
    }
    vain = 0;
    await reference.renew(done.reference);
    await tell('taken', done.taken);
    await tell('rows', done.rows);
    if (!done.more && (await agreed(done.digest))) {
      await photos.send();
      return;
    }
  }
  throw fail('busy', 'The desk’s answers did not fit what this phone asked. It tries again.');
}

async function copy() {
  await Promise.all([reference.first(), fill((progress) => listeners.progress(progress))]);
  return true;
}

/** Whether phone and desk hold the same cards. If not, all are fetched anew, once, and the person is told. */
async function agreed(digest) {
  const phone = await read();
  if (!digest || (digest.count === phone.digest.count && digest.sum === phone.digest.sum)) {
    mended = false;
    return true;
  }
  if (mended) throw fail('digest', 'The cards of this phone and of the desk differ, and fetching them anew did not help.');
  mended = true;
  await changePhone((held) => {
    held.cursor = 0;
    notice(held, 'digest', 'The cards of this phone and of the desk differed. They were fetched anew.');
  });
  return false;
}

/** Start the triggers: start, visible, online, and a timer in `later`. */
export function watch() {
  if (!watching) {
    watching = true;
    document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') soon(); });
    addEventListener('online', soon);
    addEventListener('pageshow', (event) => { if (event.persisted) soon(); });
  }
  soon();
}
