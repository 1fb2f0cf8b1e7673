// Work that may wait, and pauses in long work, so that a press or a frame from the camera never waits for either.

/** Run `work` when the browser has nothing better to do. */
export const idle = (work) => (globalThis.requestIdleCallback ? requestIdleCallback(work, { timeout: 5000 }) : setTimeout(work, 200));

/** A pause in which other things may happen. */
export const breath = () => globalThis.scheduler?.yield?.() ?? new Promise((done) => { setTimeout(done); });
