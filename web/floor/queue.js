// Scans in a row become entries, one a second or so. A scan lies in local storage from the moment it is made until an entry holds it,
// so that a killed tab loses none; should it then be entered twice, a round counts it once.
const KEY = 'exergue.scans.';
const PAUSE_MS = 1000;
const MOST = 400; // in one entry

const own = KEY + crypto.randomUUID(); // of this tab
let waiting = []; // {kind, head, list, row}: `row` goes into the list of an entry of this kind, with the fields of `head`
let timer = 0;
let running = Promise.resolve();

function keep() {
  try {
    if (waiting.length) localStorage.setItem(own, JSON.stringify(waiting));
    else localStorage.removeItem(own);
  } catch { /* a full phone: it is in memory, and the entry follows */ }
}

/** One scan. `told(error)` is called where its entry could not be kept. */
export function put(engine, scan, told) {
  waiting.push(scan);
  keep();
  timer ||= setTimeout(() => { timer = 0; flush(engine).catch(told); }, PAUSE_MS);
}

/** Those not in an entry yet. */
export const held = () => waiting;

/** Make entries of all that waits. Rejects where an entry could not be kept; what it would have held waits on. */
export function flush(engine) {
  clearTimeout(timer);
  timer = 0;
  running = running.catch(() => {}).then(() => record(engine));
  return running;
}

async function record(engine) {
  const groups = new Map();
  for (const scan of waiting) {
    const name = JSON.stringify([scan.kind, scan.head]);
    if (!groups.has(name)) groups.set(name, []);
    groups.get(name).push(scan);
  }
  for (const scans of groups.values()) {
    for (let at = 0; at < scans.length; at += MOST) {
      const part = scans.slice(at, at + MOST);
      const [{ kind, head, list }] = part;
      const rows = new Map(part.map(({ row }) => [row.coin ?? row, row])); // an entry names no coin twice
      await engine.record(kind, { ...head, [list]: [...rows.values()] });
      waiting = waiting.filter((scan) => !part.includes(scan));
      keep();
    }
  }
}

/** What a tab left behind that was killed: it goes into entries now. */
export async function adopt(engine) {
  const left = Object.keys(localStorage).filter((key) => key.startsWith(KEY) && key !== own);
  for (const key of left) {
    try { waiting.push(...JSON.parse(localStorage.getItem(key))); } catch { /* half written by nobody: setItem is whole or not at all */ }
    keep();
    localStorage.removeItem(key);
  }
  if (waiting.length) await flush(engine);
}
