// Finds a QR code in a picture: the browser's own detector where it has one, else the vendored reader in a worker.
const PATIENCE_MS = 5000; // a worker that a sleeping phone lost never answers
let made = null;

// {name, read(video | canvas) → text | null}; made once, warm when it resolves.
export function reader() {
  made ??= own().catch(() => null).then((native) => native ?? beside().catch(here));
  made.catch(() => { made = null; });
  return made;
}

async function own() {
  if (!('BarcodeDetector' in globalThis)) return null;
  if (!(await BarcodeDetector.getSupportedFormats()).includes('qr_code')) return null;
  const detector = new BarcodeDetector({ formats: ['qr_code'] });
  const surface = document.createElement('canvas');
  surface.width = surface.height = 8;
  surface.getContext('2d').fillRect(0, 0, 8, 8);
  await detector.detect(surface); // some phones name the format and then fail: found out here, not on the floor
  return { name: 'browser', read: async (source) => (await detector.detect(source))[0]?.rawValue ?? null };
}

const size = (source) => [source.videoWidth ?? source.width, source.videoHeight ?? source.height];

// In a worker: a frame that is looked at holds up no press and no drawing.
async function beside() {
  if (!('OffscreenCanvas' in globalThis)) throw new Error('a worker could not draw here');
  let turns = 0;
  const waiting = new Map(); // turn → [done, fail]
  let worker = null;
  let ready = null; // resolves when the worker is warm

  function begin() {
    worker = new Worker(new URL('./beside.js', import.meta.url), { type: 'module' });
    return new Promise((done, fail) => {
      worker.onmessage = ({ data: { ready: warm, turn, text, failed } }) => {
        if (warm) done();
        else if (turn === undefined) lose(failed);
        else {
          const [answer, refuse] = waiting.get(turn) ?? [];
          waiting.delete(turn);
          if (failed) refuse?.(new Error(failed));
          else answer?.(text);
        }
      };
      worker.onerror = (event) => lose(event.message || 'the worker did not start');
      function lose(why) { end(); fail(new Error(why)); }
    });
  }

  function end() {
    worker?.terminate();
    [worker, ready] = [null, null];
    for (const [, fail] of waiting.values()) fail(new Error('the reading worker ended'));
    waiting.clear();
  }

  await (ready = begin());
  return {
    name: 'worker',
    async read(source) {
      const [width, height] = size(source);
      if (!width || !height) return null;
      await (ready ??= begin());
      const picture = await createImageBitmap(source);
      const turn = ++turns;
      const late = setTimeout(end, PATIENCE_MS);
      try {
        return await new Promise((...both) => {
          waiting.set(turn, both);
          worker.postMessage({ turn, picture }, [picture]);
        });
      } finally { clearTimeout(late); }
    },
  };
}

// In the page, where workers of this kind are not known.
async function here() {
  const { decoder } = await import('./decoder.js');
  const read = await decoder((width, height) => Object.assign(document.createElement('canvas'), { width, height }));
  return {
    name: 'page',
    async read(source) {
      const [width, height] = size(source);
      return width && height ? read(source, width, height) : null;
    },
  };
}
