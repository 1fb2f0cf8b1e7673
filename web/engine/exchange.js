// One exchange with the desk: entries up, verdicts and changed cards down. What came is kept in one transaction.
import { write } from './db.js';
import { call, fail } from './net.js';
import { numberFrom, offerAgain, told, waiting } from './outbox.js';
import { change } from './packs.js';
import { changeIn, known, notice, read } from './phone.js';

const MOST = 500; // entries in one request
const MOST_CHARS = 2_000_000; // of entries in one request; the desk takes 16 MB
const SKEW_TOLD_MS = 120_000;

/** [The first entries, as many as fit a request, whether some are left]. */
function portion(waits) {
  let chars = 0;
  const end = waits.findIndex((fact, n) => n === MOST || ((chars += JSON.stringify(fact.body).length) > MOST_CHARS && n > 0));
  return end < 0 ? [waits, false] : [waits.slice(0, end), true];
}

/**
 * Exchange once. Resolves to {more, rows, taken, digest, reference}: `more` to come at once, cards `rows`, the ids of
 * facts `taken` whose cards may come later. Null: ask again, it did not count. Rejects like net.call.
 */
export async function exchange() {
  const phone = await read();
  const [facts, left] = portion(await waiting());
  const asked = {
    book: phone.book, epoch: phone.epoch, cursor: phone.cursor, sent_ms: Date.now(),
    facts: facts.map(({ id, n, kind, when, body }) => ({ id, n, kind, when, body })),
    ...(phone.wiped ? { wiped: true } : {}),
  };
  let answer;
  try {
    answer = await call('POST', '/api/sync', asked);
  } catch (error) {
    if (await heal(error, phone)) return null;
    throw error;
  }
  if (answer.book !== phone.book || !Array.isArray(answer.cards)) throw fail('offline', 'Something else than the desk answered.');
  if (!(await keep(phone, answer, asked.sent_ms))) return null;
  const { more, cards: rows, digest, reference, verdicts } = answer;
  return { more: more || left, rows, digest, reference, taken: more ? verdicts.map((one) => one.id) : [] };
}

function keep(asked, answer, sent) {
  return write(['meta', 'facts', 'overlay', 'packs', 'index'], (tx) => changeIn(tx, async (phone) => {
    // The base changed while the answer was on its way (another tab, a restore): it is not for us any more.
    if (phone.cursor !== asked.cursor || phone.epoch !== asked.epoch || answer.epoch !== phone.epoch || answer.cursor < phone.cursor) return false;
    await told(tx, answer.verdicts);
    await change(tx, answer.cards, phone);
    const now = Date.now();
    const skewMs = Math.round((sent + now) / 2 - answer.now_ms);
    Object.assign(phone, { cursor: answer.cursor, lastSync: now, wiped: false, skewMs });
    if (Math.abs(skewMs) > SKEW_TOLD_MS) notice(phone, 'clock', `This phone’s clock is ${minutes(skewMs)} the desk’s. Entries are taken all the same.`);
    else phone.notices = phone.notices.filter((one) => one.code !== 'clock');
    return true;
  }));
}

function minutes(ms) {
  const count = Math.round(Math.abs(ms) / 60_000);
  const said = count < 120 ? `${count} minutes` : count < 2880 ? `${Math.round(count / 60)} hours` : `${Math.round(count / 1440)} days`;
  return `${said} ${ms > 0 ? 'ahead of' : 'behind'}`;
}

/** What the desk's refusal of a whole request asks for. True where it is worth asking again at once. */
async function heal(error, asked) {
  const fix = HEALING[error.code];
  if (!fix) return false;
  return write(['meta', 'facts', 'photos'], (tx) => changeIn(tx, async (phone) => {
    if (phone.epoch === asked.epoch && phone.device.id === asked.device.id) await fix(tx, phone, error);
    return true;
  }));
}

const HEALING = {
  /** The desk was put back from a backup: offer all that is kept, and compare every card anew. */
  async restored(tx, phone, { epoch, next_n: next }) {
    await offerAgain(tx, phone, next);
    Object.assign(phone, { epoch, cursor: 0 });
    notice(phone, 'restored', 'The desk was put back from a backup. This phone offers it again what it may lack.');
  },
  /** Two phones shared one identity: this one got another. */
  async cloned(tx, phone, { device }) {
    phone.device = known({ device }).device;
    await numberFrom(tx, phone, device.next_n);
    notice(phone, 'cloned', 'Another phone used the identity of this one. This phone has its own now.');
  },
  /** The desk lacks entries that this phone believes sent. */
  async number_gap(tx, phone, { next_n: next }) {
    await offerAgain(tx, phone, next);
  },
};
