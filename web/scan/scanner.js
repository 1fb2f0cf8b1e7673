// Camera and reader together: a view with a ring, which calls found(text) for each new text that it reads.
import { html, nothing, ref } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { eachFrame, openCamera, trouble } from './camera.js';
import { reader } from './reader.js';

const REST_MS = 1500; // what a label opens has the phone to itself: no frame is read meanwhile
const TRIED = 'exergue.camera-worked';
const WHY = {
  denied: ['The camera is not allowed', 'Allow it for this site in the browser’s settings, then try again. Until then type the ID, or read it from a photo.'],
  none: ['No camera here', 'Type the ID from the label, or read it from a photo.'],
  busy: ['The camera is in use', 'Close the other app that holds it, then try again.'],
  insecure: ['No camera at this address', 'Browsers give the camera to secure addresses only. Open the desk’s https address, or type the ID.'],
  failed: ['The camera did not start', 'Try again, or type the ID from the label.'],
};

export const cameraWorked = () => Number(localStorage.getItem(TRIED)) || null;

// `words` stand under the ring; found(text, inPhoto) is called for every new text, and says true where
// it opens another place. Where there is no camera, a photo is offered: `photoField` puts that elsewhere.
export function makeScanner(ui, { found, words = 'Hold the label in the ring', photoBeside = false }) {
  let video = null;
  let camera = null;
  let unwatch = null;
  let state = 'opening';
  let why = null;
  let lit = false;
  let last = '';
  let resting = 0;
  let turn = 0;

  const attach = (element) => {
    video = element ?? null;
    if (video) {
      document.addEventListener('visibilitychange', seen);
      start();
    } else {
      document.removeEventListener('visibilitychange', seen);
      stop();
    }
  };

  const seen = () => (document.visibilityState === 'visible' ? start() : stop());

  async function start() {
    if (!video || camera || document.visibilityState !== 'visible') return;
    const mine = ++turn;
    [state, why, last] = ['opening', null, ''];
    const reading = reader();
    reading.catch(() => {});
    try {
      const opened = await openCamera(video);
      if (mine !== turn) { opened.stop(); return; }
      camera = opened;
      camera.ended(() => { stop(); fail('busy'); });
      const { read } = await reading;
      if (mine !== turn) return;
      state = 'watching';
      ui.update();
      unwatch = eachFrame(video, async () => {
        if (performance.now() < resting) return;
        const text = await read(video);
        if (!text || mine !== turn || text === last) return;
        last = text;
        if (found(text)) resting = performance.now() + REST_MS;
        localStorage.setItem(TRIED, String(Date.now()));
      });
    } catch (error) {
      if (mine !== turn) return;
      console.warn('camera:', error?.name, error?.message);
      stop();
      fail(trouble(error));
    }
  }

  function fail(code) {
    [state, why] = ['trouble', code];
    ui.update();
  }

  function stop() {
    turn += 1;
    unwatch?.();
    camera?.stop();
    [unwatch, camera, lit] = [null, null, false];
  }

  async function torch() {
    try { await camera.light(!lit); lit = !lit; } catch { ui.say('The light could not be switched.'); }
    ui.update();
  }

  async function fromPhoto(event) {
    const file = event.target.files[0];
    event.target.value = '';
    if (!file) return;
    ui.say('Reading the photo …');
    try {
      const { readPhoto } = await import('./from-photo.js');
      const text = await readPhoto(file);
      if (text) found(text, true);
      else ui.say('No label could be read in that photo. Come closer, and keep it sharp.', { tone: 'bad' });
    } catch (error) { ui.say(error.message, { tone: 'bad' }); }
  }

  const photoField = (look = '') => html`<label class="button ${look} file">${icon('picture')}<span>From a photo</span><input type="file" accept="image/*" @change=${fromPhoto}></label>`;

  return {
    stop, photoField,
    get blind() { return state === 'trouble'; },
    torchButton: () => (camera?.torch ? html`<button class="button dark" aria-pressed=${String(lit)} @click=${torch}>${icon('torch')}${lit ? 'Light off' : 'Light on'}</button>` : nothing),
    view: (message = nothing) => html`<div class="viewfinder ${state}">
      <video ${ref(attach)} muted playsinline aria-label="What the camera sees"></video>
      ${state === 'trouble' ? html`<div class="no-camera" role="alert">${icon('camera')}<h2>${WHY[why][0]}</h2><p>${WHY[why][1]}</p>
          ${why === 'none' || why === 'insecure' ? nothing : html`<button type="button" class="button" @click=${start}>Try again</button>`}${photoBeside ? nothing : photoField()}</div>`
        : html`<svg class="mask" viewBox="0 0 100 100" preserveAspectRatio="xMidYMid meet" aria-hidden="true"><path fill-rule="evenodd" d="M-300-300h700v700h-700zM50 16a34 34 0 1 0 0 68 34 34 0 1 0 0-68z"/><circle cx="50" cy="50" r="34"/><circle class="inner" cx="50" cy="50" r="32"/></svg>
          <p class="hint" role="status">${message === nothing ? (state === 'opening' ? 'Starting the camera …' : words) : message}</p>`}
    </div>`,
  };
}
