// Work that may wait, and pauses in long work, so that a press or a frame from the camera never waits for either.

/** Run `work` when the browser has nothing better to do. */
export const idle = (work) => (globalThis.requestIdleCallback ? requestIdleCallback(work, { timeout: 5000 }) : setTimeout(work, 200));

/** A pause in which other things may happen. */
export const breath = () => globalThis.scheduler?.yield?.() ?? new Promise((done) => { setTimeout(done); });

/** A pause for long work to await as often as it likes: it takes a breath once `ms` of work have gone. */
export function paced(ms = 12) {
  let since = performance.now();
  return async () => {
    if (performance.now() - since < ms) return;
    await breath();
    since = performance.now();
  };
}
