// What the app says: one short line at the bottom, read aloud, gone after a while unless it is a refusal.
import { html, nothing, render } from './html.js';

let line = null;
let timer = 0;

// It lies outside the frame, so that drawing the frame does not make a screen reader say it again.
const host = document.createElement('div');
host.className = 'said';
host.setAttribute('aria-live', 'polite');
host.setAttribute('role', 'status');
document.body.append(host);

// act: {text, run}, or several of them, puts buttons beside the words.
export function say(text, { tone = '', act = null } = {}) {
  line = { text, tone, act };
  draw();
  clearTimeout(timer);
  if (tone !== 'bad') timer = setTimeout(hush, act ? 9000 : 5000);
}

export function hush() {
  line = null;
  draw();
}

function draw() {
  render(line ? html`<p class=${line.tone}><span>${line.text}</span>${line.act
    ? [line.act].flat().map(({ text, run }) => html`<button @click=${() => { hush(); run(); }}>${text}</button>`)
    : line.tone === 'bad' ? html`<button @click=${hush}>Close</button>` : nothing}</p>` : nothing, host);
}

