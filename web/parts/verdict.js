// What a scan in a row says: a large plain word with its sign, never by colour alone.
import { html, live, nothing } from './html.js';
import { icon } from './icons.js';

const SIGNS = { expected: 'fits', again: 'sync', unexpected: 'warn', unknown: 'unsure', ready: 'scan' };

/** Before the first scan. */
export const READY = { what: 'ready', word: 'Ready', more: 'Hold label after label in the ring.' };
const NO_CAMERA = 'Type label after label, or read each from a photo.';

/** `told`: {what: expected|again|unexpected|unknown|ready, word, more}; `blind`: there is no camera. */
export const verdict = ({ what, word, more = '' }, blind = false) => html`<div class="scan-said ${what}" role="status">${icon(SIGNS[what])}<b>${word}</b><p>${blind && what === 'ready' ? NO_CAMERA : more}</p></div>`;

/**
 * Typing a label that cannot be scanned; `text` is kept by the screen. take(id) has it, set(text) the text, leave() closes.
 * What is sent is what stands in the field: a reader that types is faster than the next drawing.
 */
export function typedLabel(engine, text, { set, take, leave, words }) {
  const plain = text.replace(/[\s-]/g, '');
  const { id, error } = plain.length >= 10 ? engine.parseId(text) : {};
  return html`<form class="typed" @submit=${(event) => { event.preventDefault(); const read = engine.parseId(event.target.elements['f-id'].value); if (read.id) take(read.id); }}>
    <div class="field"><label for="f-id">Coin ID</label><input id="f-id" class="id-input" .value=${live(text)} @input=${(event) => set(event.target.value)}
      placeholder="7K3M9-QX2BE" maxlength="60" autocomplete="off" autocapitalize="characters" spellcheck="false" enterkeyhint="go" aria-describedby="id-verdict"></div>
    <p id="id-verdict" class=${error ? 'bad' : 'soft'}>${error ?? 'Ten characters, as printed under the code'}</p>
    <div class="row"><button type="button" class="button" @click=${leave}>Camera</button><button class="button main grow" type="submit" aria-disabled=${id ? nothing : 'true'}>${words}</button></div></form>`;
}
