// The camera at the back: opened, watched frame by frame, stopped when the page is hidden, started again when shown.

// Why there is no picture: {code: 'denied' | 'none' | 'busy' | 'insecure' | 'failed'}
export function trouble(error) {
  if (!navigator.mediaDevices?.getUserMedia) return 'insecure';
  if (error?.name === 'NotAllowedError' || error?.name === 'SecurityError') return 'denied';
  if (error?.name === 'NotFoundError' || error?.name === 'OverconstrainedError') return 'none';
  return error?.name === 'NotReadableError' || error?.name === 'AbortError' ? 'busy' : 'failed';
}

// The constraints: 1280 × 720 is the least that reads a label at arm's length of focus; more is welcome.
const WANTED = { audio: false, video: { facingMode: { ideal: 'environment' }, width: { ideal: 1920, min: 640 }, height: { ideal: 1080 } } };

const UNUSED_MS = 10_000;
let early = null; // a promise of a stream that was asked for before the app could show it

/** Where the camera is allowed already, ask for it now: on a phone it takes longer to start than the app does. */
export async function askEarly() {
  if ((await navigator.permissions.query({ name: 'camera' })).state !== 'granted' || document.visibilityState !== 'visible') return;
  early = navigator.mediaDevices.getUserMedia(WANTED);
  early.catch(() => {});
  setTimeout(letGo, UNUSED_MS);
}

/** Nobody looks through a camera that was asked for early. */
export function letGo() {
  early?.then(stop, () => {});
  early = null;
}

const stop = (stream) => stream.getTracks().forEach((track) => track.stop());

function ask() {
  const asked = early ?? navigator.mediaDevices.getUserMedia(WANTED);
  early = null;
  return asked;
}

export async function openCamera(video) {
  if (!navigator.mediaDevices?.getUserMedia) throw new Error('no camera interface');
  const stream = await ask();
  video.srcObject = stream;
  video.muted = true;
  video.playsInline = true;
  await video.play();
  const track = stream.getVideoTracks()[0];
  const able = track.getCapabilities?.() ?? {};
  if (able.focusMode?.includes('continuous')) track.applyConstraints({ advanced: [{ focusMode: 'continuous' }] }).catch(() => {});
  return {
    torch: Boolean(able.torch),
    light: (on) => track.applyConstraints({ advanced: [{ torch: on }] }),
    ended: (fn) => track.addEventListener('ended', fn),
    stop() {
      stop(stream);
      video.srcObject = null;
    },
  };
}

// Calls look() for each new frame, never two at once, until stop() is called.
export function eachFrame(video, look) {
  let going = true;
  const next = () => {
    if (!going) return;
    if (video.requestVideoFrameCallback) video.requestVideoFrameCallback(one);
    else setTimeout(one, 40);
  };
  async function one() {
    if (!going) return;
    try { await look(); } catch (error) { console.error(error); }
    next();
  }
  next();
  return () => { going = false; };
}
