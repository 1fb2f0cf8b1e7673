// Finds a QR code in a picture: the browser's own detector where it has one, else the vendored reader.
import { warmSymbol } from './warm.js';

const SETTINGS = { formats: ['QRCode'], maxNumberOfSymbols: 1, tryHarder: true, tryRotate: false, tryInvert: false, tryDownscale: true };
let made = null;

// {name, read(video | canvas) → text | null}; made once, warm when it resolves.
export function reader() {
  made ??= own().catch(() => null).then((native) => native ?? vendored());
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

async function vendored() {
  const { prepareZXingModule, readBarcodes } = await import('../vendor/zxing-wasm/dist/es/reader/index.js');
  const folder = new URL('../vendor/zxing-wasm/dist/reader/', import.meta.url);
  await prepareZXingModule({
    overrides: { locateFile: (path, prefix) => (path.endsWith('.wasm') ? new URL(path, folder).href : prefix + path) },
    fireImmediately: true,
  });
  const read = async (pixels) => (await readBarcodes(pixels, SETTINGS))[0]?.text ?? null;
  await read(warmSymbol()); // the first decode compiles: a real symbol makes it compile all of it
  let canvas = null;
  let paper = null;
  return {
    name: 'vendored',
    async read(source) {
      const [w, h] = [source.videoWidth ?? source.width, source.videoHeight ?? source.height];
      if (!w || !h) return null;
      if (canvas?.width !== w || canvas?.height !== h) {
        canvas = document.createElement('canvas');
        [canvas.width, canvas.height] = [w, h];
        paper = canvas.getContext('2d', { willReadFrequently: true });
      }
      paper.drawImage(source, 0, 0);
      return read(paper.getImageData(0, 0, w, h));
    },
  };
}
