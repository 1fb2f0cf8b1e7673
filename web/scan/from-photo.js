// A label in a photo file: for phones whose camera the browser may not use.
import { reader } from './reader.js';

// The text of the symbol, or null. Raises an Error with one sentence for what is no picture.
export async function readPhoto(file) {
  let picture;
  try { picture = await createImageBitmap(file); } catch { throw new Error('That file is not a picture this phone can read.'); }
  const { read } = await reader();
  try {
    for (const most of [1600, 3200, 900]) {
      const scale = Math.min(1, most / Math.max(picture.width, picture.height));
      const canvas = document.createElement('canvas');
      canvas.width = Math.round(picture.width * scale);
      canvas.height = Math.round(picture.height * scale);
      canvas.getContext('2d').drawImage(picture, 0, 0, canvas.width, canvas.height);
      const text = await read(canvas);
      if (text) return text;
    }
    return null;
  } finally { picture.close(); }
}
