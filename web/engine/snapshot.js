// First sync: packs streamed in order, kept as they come; a break goes on where it stopped.
import { get, write } from './db.js';
import { ask, fail } from './net.js';
import { dropAfter, packed, putPacks } from './packs.js';
import { changeIn } from './phone.js';

const BATCH_CHARS = 1_000_000; // text of packs kept in one transaction
const SILENCE_MS = 30_000; // a connection that says nothing for so long is dead

/** Fill the phone. `progress({done, total, again})` is told after each batch. Resolves when all is kept. */
export async function fill(progress) {
  const begun = (await get('meta', 'snapshot')) ?? null;
  const query = begun ? `?after=${encodeURIComponent(begun.after)}&upto=${begun.seq}&prefix=${begun.prefix}` : '';
  const response = await ask('GET', `/api/snapshot${query}`, undefined, {}, 0);
  const copy = new Copy(begun, progress);
  try {
    for await (const line of lines(response.body)) await copy.take(line);
  } catch (error) {
    await copy.keep().catch(() => {}); // what came whole is not fetched twice
    if (error.code === 'again') await write(['meta'], (tx) => tx.store.delete('snapshot'));
    throw typeof error.code === 'string' ? error : fail('offline', 'The connection broke off.', { cause: error });
  }
  await copy.keep();
  if (!copy.whole) throw fail('offline', 'The connection broke off.');
  await copy.finish();
}

class Copy {
  constructor(begun, progress) {
    this.begun = begun;
    this.progress = progress;
    this.at = begun; // {epoch, seq, total, prefix, done, digest, after: last card kept, last: last pack kept}
    this.kept = begun?.last ?? '';
    this.batch = [];
    this.size = 0;
    this.whole = false;
    this.writing = Promise.resolve();
  }

  async take(line) {
    if (line.startsWith('{"pack"')) {
      const one = packed(line, this.at.digest);
      Object.assign(this.at, { after: one.last, last: one.pack, done: this.at.done + one.count });
      this.batch.push(one);
      this.size += line.length;
      if (this.size >= BATCH_CHARS) await this.flush();
    } else {
      const row = JSON.parse(line);
      if (row.end) this.whole = true;
      else this.begin(row);
    }
  }

  begin({ epoch, seq, total, prefix = 2 }) {
    if (this.begun && this.begun.epoch !== epoch) throw fail('again', 'The desk was put back from a backup meanwhile.');
    this.at = { digest: { count: 0, sum: 0 }, done: 0, after: '', last: '', prefix, ...this.begun, epoch, seq: this.begun?.seq ?? seq, total };
    this.told();
  }

  told() {
    this.progress({ done: this.at.done, total: this.at.total, again: Boolean(this.begun) });
  }

  /** Start to keep what has come, while more is on its way; one batch at a time. */
  async flush() {
    if (!this.batch.length) return;
    const [batch, at, before] = [this.batch, structuredClone(this.at), this.kept];
    [this.batch, this.size, this.kept] = [[], 0, at.last];
    await this.writing;
    this.writing = write(['meta', 'packs', 'index'], (tx) => {
      putPacks(tx, before, batch);
      tx.objectStore('meta').put(at, 'snapshot');
    }, { relaxed: true });
    this.writing.catch(() => {}); // told by the next await
    this.told();
  }

  async keep() {
    await this.flush();
    await this.writing;
  }

  finish() {
    const { at } = this;
    return write(['meta', 'packs', 'index', 'overlay'], async (tx) => {
      dropAfter(tx, at.last);
      tx.objectStore('overlay').clear();
      tx.objectStore('meta').delete('snapshot');
      await changeIn(tx, (phone) => Object.assign(phone, { cursor: at.seq, epoch: at.epoch, digest: at.digest, prefix: at.prefix, ready: true }));
    });
  }
}

async function* lines(stream) {
  const reader = stream.getReader();
  const decoder = new TextDecoder();
  let rest = '';
  for (;;) {
    const { value, done } = await heard(reader);
    if (done) break;
    const text = rest + decoder.decode(value, { stream: true });
    const end = text.lastIndexOf('\n');
    rest = text.slice(end + 1);
    if (end >= 0) for (const line of text.slice(0, end).split('\n')) if (line) yield line;
  }
  if (rest) throw fail('offline', 'The connection broke off.');
}

async function heard(reader) {
  let timer = 0;
  const silence = new Promise((_, reject) => {
    timer = setTimeout(() => reject(fail('offline', 'The desk fell silent.')), SILENCE_MS);
  });
  try {
    return await Promise.race([reader.read(), silence]);
  } catch (error) {
    reader.cancel().catch(() => {});
    throw error;
  } finally {
    clearTimeout(timer);
  }
}
