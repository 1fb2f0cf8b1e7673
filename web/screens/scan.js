// Scanning a holder: the camera first; a typed ID or a photo where it will not do.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { makeScanner } from '../scan/scanner.js';
import { codeIn } from '../parts/pairing.js';

export function open(ui) {
  const { engine } = ui;
  let message = nothing;
  let typing = false;
  let text = '';
  const scanner = makeScanner(ui, { found, photoBeside: true });
  return { title: 'Scan', full: true, view, close: () => scanner.stop() };

  function found(read, inPhoto = false) {
    const { id, error } = engine.parseId(read);
    if (id) {
      navigator.vibrate?.(40);
      ui.go(`/c/${id}`);
      return true;
    }
    message = /#pair=/i.test(read) && codeIn(read) ? 'That is a pairing code; this phone is paired already.' : /^https?:\/\//i.test(read) || read.length > 14 ? 'That is not an Exergue label.' : error;
    ui.update();
    if (inPhoto) ui.say(message, { tone: 'bad' });
    return false;
  }

  function view() {
    return html`${head(ui, { title: 'Scan' })}
      <div class="scanner">
        ${scanner.view(message)}
        ${typing ? typed() : html`<div class="tools">
          <button class="button dark grow" @click=${() => { typing = true; ui.update(); requestAnimationFrame(() => document.getElementById('f-id')?.focus()); }}>${icon('keys')}Type the ID</button>
          ${scanner.torchButton()}
          ${scanner.photoField('dark')}
        </div>`}
      </div>`;
  }

  function typed() {
    const plain = text.replace(/[\s-]/g, '');
    const { id, error } = plain.length >= 10 ? engine.parseId(text) : {};
    const verdict = id ? html`<p id="id-verdict" class="good row" role="status">${icon('fits')}The check character fits.</p>`
      : error ? html`<p id="id-verdict" class="bad" role="status">${error}</p>`
      : html`<p id="id-verdict" class="soft" role="status">${plain.length ? `${plain.length} of 10 characters` : 'Ten characters, as printed under the code'}</p>`;
    return html`<form class="typed" @submit=${(event) => { event.preventDefault(); const typed = event.target.elements['f-id'].value; if (engine.parseId(typed).id) found(typed); }}>
      <div class="field"><label for="f-id">Coin ID</label><input id="f-id" class="id-input" .value=${text} @input=${(event) => { text = event.target.value; ui.update(); }}
        placeholder="7K3M9-QX2BE" maxlength="60" autocomplete="off" autocapitalize="characters" spellcheck="false" enterkeyhint="go" aria-describedby="id-verdict" aria-invalid=${error ? 'true' : nothing}></div>
      ${verdict}
      <div class="row"><button type="button" class="button" @click=${() => { typing = false; ui.update(); }}>Camera</button>
        <button class="button main grow" type="submit" aria-disabled=${id ? nothing : 'true'}>Open its card${icon('on')}</button></div>
    </form>`;
  }
}
