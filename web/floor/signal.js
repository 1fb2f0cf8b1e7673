// What a scan says without being looked at: a sound and a vibration for each of four answers.
const KEY = 'exergue.count-sound';
// [frequency in Hz, seconds]…, and the pattern of the vibration in ms
const SAYS = {
  expected: [[[1320, 0.07]], [40]],
  again: [[[660, 0.06], [660, 0.06]], [25, 60, 25]],
  unexpected: [[[440, 0.16], [330, 0.2]], [160, 80, 160]],
  unknown: [[[220, 0.35]], [400]],
};
let sounds = null;

export const soundOn = () => localStorage.getItem(KEY) !== 'off';

export function setSound(on) {
  localStorage.setItem(KEY, on ? 'on' : 'off');
  if (on) ready();
}

/** A browser lets a page sound after a press only: called at each, it begins with the first. */
export function ready() {
  if (!soundOn() || !globalThis.AudioContext) return;
  sounds ??= new AudioContext();
  if (sounds.state === 'suspended') sounds.resume().catch(() => {});
}

/** `what`: expected, again, unexpected or unknown. */
export function signal(what) {
  const [notes, pattern] = SAYS[what];
  navigator.vibrate?.(pattern);
  if (!soundOn() || sounds?.state !== 'running') return;
  let at = sounds.currentTime;
  for (const [pitch, seconds] of notes) {
    const [tone, loud] = [sounds.createOscillator(), sounds.createGain()];
    tone.frequency.value = pitch;
    tone.type = 'square';
    loud.gain.setValueAtTime(0.15, at);
    loud.gain.exponentialRampToValueAtTime(0.001, at + seconds);
    tone.connect(loud).connect(sounds.destination);
    tone.start(at);
    tone.stop(at + seconds);
    at += seconds + 0.03;
  }
}
