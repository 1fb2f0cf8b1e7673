// Labelled fields. `form` is {values, wrong, set(name, value)}: each screen keeps one.
import { html, live, nothing } from './html.js';
import { icon } from './icons.js';
import { parse, plain } from './money.js';

// A form's state; `ui.update` draws it again after each key.
export function makeForm(ui, values, changed = () => {}) {
  const form = {
    values, wrong: {}, busy: false,
    set(name, value) {
      form.values[name] = value;
      delete form.wrong[name];
      changed();
      ui.update();
    },
    // One action at a time, and a refusal beside the button rather than a lost form.
    async run(action) {
      if (form.busy) return;
      form.busy = true;
      ui.update();
      try { await action(); } catch (error) { ui.say(error.message ?? String(error), { tone: 'bad' }); }
      form.busy = false;
      ui.update();
    },
    fail(wrong) {
      form.wrong = wrong;
      ui.update();
      requestAnimationFrame(() => document.querySelector('.field.broken input, .field.broken textarea, .field.broken select, .field.broken .picker')?.focus());
    },
  };
  return form;
}

function frame(form, name, label, inner, help) {
  const wrong = form.wrong[name];
  return html`<div class="field ${wrong ? 'broken' : ''}"><label for=${`f-${name}`}>${label}</label>${inner}
    ${wrong ? html`<p class="wrong" id=${`w-${name}`}>${wrong}</p>` : help ? html`<p class="help">${help}</p>` : nothing}</div>`;
}

const mind = (form, name) => (form.wrong[name] ? `w-${name}` : nothing);

export function text(form, name, label, { help, max = 120, mode = 'text', hint = '', list, caps = 'sentences', kind = 'text' } = {}) {
  return frame(form, name, label, html`<input id=${`f-${name}`} type=${kind} .value=${live(form.values[name] ?? '')} maxlength=${max} inputmode=${mode} placeholder=${hint}
    autocomplete="off" autocapitalize=${caps} list=${list ? `l-${name}` : nothing} aria-invalid=${form.wrong[name] ? 'true' : nothing} aria-describedby=${mind(form, name)}
    @input=${(event) => form.set(name, event.target.value)}>${list ? html`<datalist id=${`l-${name}`}>${list.map((one) => html`<option value=${one}></option>`)}</datalist>` : nothing}`, help);
}

export function area(form, name, label, { help, max = 2000, rows = 4, hint = '' } = {}) {
  return frame(form, name, label, html`<textarea id=${`f-${name}`} rows=${rows} maxlength=${max} placeholder=${hint} .value=${live(form.values[name] ?? '')}
    aria-invalid=${form.wrong[name] ? 'true' : nothing} aria-describedby=${mind(form, name)} @input=${(event) => form.set(name, event.target.value)}></textarea>`, help);
}

// The field keeps what was typed; `cents(form, name)` reads it.
export function amount(ui, form, name, label, { help } = {}) {
  const sign = new Intl.NumberFormat('en-US', { style: 'currency', currency: ui.engine.state.currency }).formatToParts(0).find((part) => part.type === 'currency').value;
  return frame(form, name, label, html`<span class="money-in ${sign.length > 1 ? 'long' : ''}"><span aria-hidden="true">${sign}</span><input class="amount" id=${`f-${name}`} type="text" inputmode="decimal" autocomplete="off"
    .value=${live(form.values[name] ?? '')} aria-invalid=${form.wrong[name] ? 'true' : nothing} aria-describedby=${mind(form, name)} @input=${(event) => form.set(name, event.target.value)}></span>`, help);
}

export const cents = (ui, form, name) => parse(form.values[name] ?? '', ui.engine.state.currency);
export const typed = (ui, value) => plain(value, ui.engine.state.currency);

export function date(form, name, label, { need = true } = {}) {
  return frame(form, name, label, html`<input id=${`f-${name}`} type="date" ?required=${need} .value=${live(form.values[name] ?? '')} aria-describedby=${mind(form, name)} @input=${(event) => form.set(name, event.target.value)}>`);
}

export function choice(form, name, label, list, { help } = {}) {
  return frame(form, name, label, html`<span class="select"><select id=${`f-${name}`} aria-invalid=${form.wrong[name] ? 'true' : nothing} aria-describedby=${mind(form, name)} @change=${(event) => form.set(name, event.target.value)}>
    ${list.map(([value, words]) => html`<option value=${value} ?selected=${value === (form.values[name] ?? '')}>${words}</option>`)}</select>${icon('down')}</span>`, help);
}

// A field that opens a sheet to choose from.
export function picker(form, name, label, shown, press, { hint = 'Choose', help } = {}) {
  const wrong = form.wrong[name];
  return html`<div class="field ${wrong ? 'broken' : ''}"><span class="label" id=${`n-${name}`}>${label}</span>
    <button type="button" class="picker ${shown ? '' : 'none'}" id=${`f-${name}`} aria-haspopup="dialog" aria-labelledby=${`n-${name} f-${name}`} @click=${press}><span>${shown || hint}</span>${icon('down')}</button>
    ${wrong ? html`<p class="wrong">${wrong}</p>` : help ? html`<p class="help">${help}</p>` : nothing}</div>`;
}

// One of a few, all in sight. list: [value, words, sign?]
export function segments(name, now, list, press, label) {
  return html`<div class="segments" role="radiogroup" aria-label=${label}>${list.map(([value, words, sign]) => html`
    <label class=${`is-${value}`}><input type="radio" name=${name} value=${value} .checked=${live(now === value)} @change=${() => press(value)}
      @click=${(event) => { if (now === value && event.detail) { event.preventDefault(); press(''); } }}>${sign ? icon(sign) : nothing}<span>${words}</span></label>`)}</div>`;
}

/** The one main action at the bottom; `over`: a figure that stays in sight above it. */
export function submit(form, words, sign, { busyWords = 'Recording …', over = nothing } = {}) {
  return html`<div class="actions">${over}<div class="line"><button class="button main grow" type="submit" aria-disabled=${form.busy ? 'true' : nothing}>${icon(sign)}${form.busy ? busyWords : words}</button></div></div>`;
}
