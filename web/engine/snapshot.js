// First sync: packs streamed in order, kept as they come; a break goes on where it stopped.
import { get, write } from './db.js';
import { ask, fail } from './net.js';
import { dropBetween, putPack } from './packs.js';
import { changeIn } from './phone.js';

const BATCH_CHARS = 1_000_000; // text of packs kept in one transaction

/** Fill the phone. `progress({done, total, again})` is told after each batch. Resolves when all is kept. */
export async function fill(progress) {
  const begun = (await get('meta', 'snapshot')) ?? null;
  const query = begun ? `?after=${encodeURIComponent(begun.after)}&upto=${begun.seq}` : '';
  const response = await ask('GET', `/api/snapshot${query}`, undefined, {}, 0);
  let state = begun;
  let batch = [];
  let size = 0;
  let whole = false;
  const keep = async () => {
    if (!batch.length) return;
    const packs = batch;
    [batch, size] = [[], 0];
    state = await keepPacks(packs, state);
    progress({ done: state.done, total: state.total, again: Boolean(begun) });
  };
  try {
    for await (const line of lines(response.body)) {
      const row = JSON.parse(line);
      if (row.end) whole = true;
      else if (row.pack) {
        batch.push(row);
        size += line.length;
        if (size >= BATCH_CHARS) await keep();
      } else {
        if (begun && begun.epoch !== row.epoch) throw fail('again', 'The desk was put back from a backup meanwhile.');
        state = { digest: { count: 0, sum: 0 }, done: 0, after: '', last: '', ...begun, epoch: row.epoch, seq: row.seq, total: row.total };
        progress({ done: state.done, total: state.total, again: Boolean(begun) });
      }
    }
  } catch (error) {
    await keep(); // what came whole is not fetched twice
    if (error.code === 'again') await write(['meta'], (tx) => tx.store.delete('snapshot'));
    throw error.code ? error : fail('offline', 'The connection broke off.', { cause: error });
  }
  await keep();
  if (!whole) throw fail('offline', 'The connection broke off.');
  await finish(state);
}

function keepPacks(packs, state) {
  return write(['meta', 'packs', 'index'], async (tx) => {
    const next = { ...state, digest: { ...state.digest } };
    for (const pack of packs) {
      dropBetween(tx, next.last, pack.pack);
      putPack(tx, pack, next.digest);
      next.last = pack.pack;
      next.done += pack.cards.length;
      next.after = `${pack.pack.slice(0, pack.pack.indexOf('/'))}/${pack.cards.at(-1)[1]}`;
    }
    await tx.objectStore('meta').put(next, 'snapshot');
    return next;
  });
}

function finish(state) {
  return write(['meta', 'packs', 'index', 'overlay'], async (tx) => {
    dropBetween(tx, state.last, null);
    tx.objectStore('overlay').clear();
    tx.objectStore('meta').delete('snapshot');
    await changeIn(tx, (phone) => Object.assign(phone, { cursor: state.seq, epoch: state.epoch, digest: state.digest, ready: true }));
  });
}

async function* lines(stream) {
  const reader = stream.pipeThrough(new TextDecoderStream()).getReader();
  let rest = '';
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    const parts = (rest + value).split('\n');
    rest = parts.pop();
    yield* parts.filter(Boolean);
  }
  if (rest) throw fail('offline', 'The connection broke off.');
}
