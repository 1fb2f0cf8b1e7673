// The vendored reader of QR codes, for the worker that reads beside the page, and for the page where there is no worker.
import { warmSymbol } from './warm.js';

const SETTINGS = { formats: ['QRCode'], maxNumberOfSymbols: 1, tryHarder: true, tryRotate: false, tryInvert: false, tryDownscale: true };

// Resolves, warm, to read(picture, width, height) → text | null; `surface` makes a canvas.
export async function decoder(surface) {
  const { prepareZXingModule, readBarcodes } = await import('../vendor/zxing-wasm/dist/es/reader/index.js');
  const folder = new URL('../vendor/zxing-wasm/dist/reader/', import.meta.url);
  await prepareZXingModule({
    overrides: { locateFile: (path, prefix) => (path.endsWith('.wasm') ? new URL(path, folder).href : prefix + path) },
    fireImmediately: true,
  });
  const textIn = async (pixels) => (await readBarcodes(pixels, SETTINGS))[0]?.text ?? null;
  await textIn(warmSymbol()); // the first decode compiles: a real symbol makes it compile all of it
  let paper = null;
  return (picture, width, height) => {
    if (paper?.canvas.width !== width || paper.canvas.height !== height) {
      paper = surface(width, height).getContext('2d', { willReadFrequently: true });
    }
    paper.drawImage(picture, 0, 0);
    return textIn(paper.getImageData(0, 0, width, height));
  };
}
