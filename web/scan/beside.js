// A worker: reads the pictures that the page hands over, one after the other, so that the page itself never stands still.
import { decoder } from './decoder.js';

const made = decoder((width, height) => new OffscreenCanvas(width, height));
made.then(() => postMessage({ ready: true }), (error) => postMessage({ failed: String(error) }));

addEventListener('message', async ({ data: { turn, picture } }) => {
  try {
    const read = await made;
    postMessage({ turn, text: await read(picture, picture.width, picture.height) });
  } catch (error) { postMessage({ turn, failed: String(error) }); } finally { picture.close(); }
});
