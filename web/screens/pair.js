// Pairing this phone with a desk: a one-time code, from the link, the camera or the keyboard.
import { html, nothing } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { holder } from '../parts/holder.js';
import { makeForm, text as field } from '../parts/field.js';
import { makeScanner } from '../scan/scanner.js';
import { codeIn, forgetCode, pairingCode } from '../parts/pairing.js';
import { browserTab, onIos, phoneName } from '../parts/install.js';

export function open(ui) {
  const { engine } = ui;
  const form = makeForm(ui, { code: pairingCode() ?? '', name: phoneName() });
  let scanner = null;
  let read = Boolean(form.values.code); // from the link or the camera, not typed
  return { title: 'Pair this phone', view, close: () => scanner?.stop() };

  function scanned(text) {
    const code = codeIn(text);
    if (!code || !/#pair=/i.test(text)) {
      ui.say(engine.parseId(text).id ? 'That is a coin’s label. The pairing code is on the desk’s screen, under Devices.' : 'That is not a pairing code.');
      return;
    }
    navigator.vibrate?.(40);
    scanner = null;
    read = true;
    form.set('code', code);
  }

  async function pair(event) {
    event.preventDefault();
    const code = codeIn(form.values.code);
    if (!code) { form.fail({ code: 'A pairing code has eight letters and digits.' }); return; }
    await form.run(async () => {
      try {
        await engine.pair(code, form.values.name.trim() || phoneName());
        forgetCode();
        ui.settle();
      } catch (error) {
        if (error.code === 'code_used' || error.code === 'code_expired' || error.code === 'code_wrong') {
          forgetCode();
          read = false;
          form.fail({ code: error.message });
        } else if (error.code === 'offline') throw new Error('The desk could not be reached. Pairing is the one step that needs its network.');
        else throw error;
      }
    });
  }

  function view() {
    if (scanner) {
      return html`<div class="scanner pairing">${scanner.view()}<div class="tools"><button class="button dark grow" @click=${() => { scanner = null; ui.update(); }}>${icon('keys')}Type the code</button></div></div>`;
    }
    const { paired, bookName, notice, waiting } = engine.state;
    return html`<form class="body welcome" @submit=${pair} novalidate>
      <div class="crest">${holder({ size: 'large', year: 'EXERGUE', denom: '' })}</div>
      <h1 tabindex="-1">${paired ? 'Pair again' : 'Your coins, in your pocket'}</h1>
      <p class="lede">Pairing copies the book from the desk to this phone. After that it works with no network, and sends what you enter when the desk is in reach.</p>
      ${(paired ? [] : notice).map((one) => html`<div class="callout warn">${icon('warn')}<p>${one.text}</p></div>`)}
      ${paired ? html`<div class="callout warn">${icon('warn')}<div class="stack"><p>This phone holds <b>${bookName}</b> already${waiting ? `, with ${waiting} not sent yet` : ''}. A code of the same desk gives it a new name there, and what waits goes along.</p>
        <button type="button" class="button" @click=${() => { forgetCode(); ui.settle(); }}>Go on with ${bookName}</button></div></div>` : nothing}
      ${onIos() && browserTab() ? html`<div class="callout warn">${icon('warn')}<p><b>Put it on the home screen first.</b> In a browser tab, this phone’s system may drop what is stored after a week without use.
        Press Share, then <b>Add to Home Screen</b>; open Exergue from there and pair inside it.</p></div>` : nothing}
      <div class="stack">
        ${read && form.values.code ? html`<p class="slip-id"><span class="soft small">Code from the desk</span><b class="id">${form.values.code}</b></p>${form.wrong.code ? html`<p class="wrong bad" role="alert">${form.wrong.code}</p>` : nothing}`
          : html`<button type="button" class="button wide" @click=${() => { scanner = makeScanner(ui, { found: scanned, words: 'Hold the desk’s pairing code in the ring' }); ui.update(); }}>${icon('scan')}Scan the pairing code</button>
            ${field(form, 'code', 'or type it', { max: 60, caps: 'characters', help: 'Eight letters and digits, at the desk under Devices. It works once, for ten minutes.' })}`}
        ${field(form, 'name', 'Name of this phone', { max: 60, caps: 'words', help: 'So that the desk can tell its devices apart.' })}
        <button class="button main wide" type="submit" aria-disabled=${form.busy ? 'true' : nothing}>${icon('phone')}${form.busy ? 'Pairing …' : 'Pair this phone'}</button>
      </div>
    </form>`;
  }
}
