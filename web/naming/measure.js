// Questions that are answered with a number: size against a circle, weight, weight in water, a date with holes, a mint mark.
import { html, nothing } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { CIRCLE_U, gravity, GRAVITY_CAUTION, readDate } from '../name/index.js';
import { calibrate, calibrated, circle } from './scale.js';

const number = (text) => (text.trim() === '' ? NaN : Number(text.trim().replace(',', '.')));

// Each maker holds what is being typed: view() draws it; `give(answer)` takes the answer.
export const MEASURES = { size, weight, gravity: water, date, mint };

function size(ui, give) {
  let mm = 24;
  let typed = '';
  const set = (value) => { mm = Math.min(45, Math.max(10, Math.round(value * 4) / 4)); ui.update(); };
  return () => html`<div class="gap">
    ${calibrated() ? html`<p>Lay the coin on the circle and move the slider until the circle just shows around it.</p>
      <div class="under-coin">${circle(mm)}</div>
      <label class="stack"><span class="figures"><b>${mm.toFixed(2)} mm</b></span><input type="range" min="10" max="45" step="0.25" .value=${String(mm)} @input=${(event) => set(Number(event.target.value))}></label>
      <div class="row"><button class="button" aria-label="Smaller" @click=${() => set(mm - 0.25)}>−</button><button class="button" aria-label="Larger" @click=${() => set(mm + 0.25)}>+</button>
        <button class="button main grow" @click=${() => give({ mm, u: CIRCLE_U })}>It fits the circle</button></div>`
      : html`<p>A circle can be drawn at true size once this screen was held against a bank card.</p><button class="button main wide" @click=${() => calibrate(ui, ui.update)}>${icon('ring')}Set the true scale</button>`}
    ${field('mm', 'Or with a caliper', 'mm', typed, (text) => { typed = text; ui.update(); }, () => give({ mm: number(typed), u: 0.15 }), number(typed) >= 5 && number(typed) <= 100)}
  </div>`;
}

function weight(ui, give) {
  let typed = '';
  return () => field('grams', 'Weight', 'g', typed, (text) => { typed = text; ui.update(); }, () => give({ g: number(typed) }), number(typed) > 0.1 && number(typed) < 500);
}

function water(ui, give) {
  const typed = { dry: '', wet: '', celsius: '20', resolution: '0.01' };
  const line = (name, label, unit) => html`<div class="field"><label for=${`g-${name}`}>${label}</label><span class="unit-in"><input id=${`g-${name}`} class="amount" inputmode="decimal" autocomplete="off" .value=${typed[name]}
    @input=${(event) => { typed[name] = event.target.value; ui.update(); }}><span>${unit}</span></span></div>`;
  return () => {
    const given = Object.fromEntries(Object.entries(typed).map(([name, text]) => [name, number(text)]));
    const ready = typed.dry && typed.wet;
    const reading = ready ? gravity(given) : null;
    return html`<div class="gap">
      <p class="caution small">${GRAVITY_CAUTION}</p>
      <div class="pair">${line('dry', 'Dry', 'g')}${line('wet', 'Hung in water', 'g')}</div>
      <div class="pair">${line('celsius', 'Water', '°C')}${line('resolution', 'Step of the scale', 'g')}</div>
      <p role="status">${!reading ? html`<span class="soft">Both readings are needed.</span>` : reading.problem ? html`<span class="bad">${reading.problem}</span>`
        : html`Specific gravity <b class="figures">${reading.density.toFixed(2)} ± ${reading.expanded.toFixed(2)}</b> <span class="soft small">(two standard uncertainties)</span>`}</p>
      <button class="button main wide" ?disabled=${!reading || Boolean(reading.problem)} @click=${() => give({ density: reading.density, u: reading.u })}>Use this reading</button></div>`;
  };
}

function date(ui, give) {
  let typed = '';
  const set = (text) => { typed = text.replace(/[^0-9?]/g, '').slice(0, 4); ui.update(); };
  return () => {
    const read = readDate(typed);
    const ready = typed.length === 4 && /\d/.test(typed) && read.digits;
    return html`<div class="gap"><div class="field"><label for="g-date">The date as it stands; ? for a digit that cannot be read</label>
      <span class="row"><input id="g-date" class="digits figures" inputmode="numeric" autocomplete="off" placeholder="18?7" maxlength="4" .value=${typed} @input=${(event) => set(event.target.value)}>
      <button class="button" @click=${() => set(`${typed}?`)} aria-label="A digit that cannot be read">?</button>
      <button class="button main grow" ?disabled=${!ready} @click=${() => give(typed)}>Use it</button></span></div></div>`;
  };
}

function mint(ui, give) {
  const marks = [...new Set(Object.values(ui.engine.reference.types).flatMap((type) => type.issues.map((one) => one.mint ?? '')))].filter(Boolean).sort();
  return () => html`<div class="answers">${marks.map((mark) => html`<button class="answer" @click=${() => give(mark)}><span>${mark}</span></button>`)}
    <button class="answer" @click=${() => give('')}><span>No mint mark</span></button></div>`;
}

function field(id, label, unit, typed, type, use, ready) {
  return html`<form class="field" @submit=${(event) => { event.preventDefault(); if (ready) use(); }}><label for=${`g-${id}`}>${label}</label>
    <span class="row"><span class="unit-in grow"><input id=${`g-${id}`} class="amount" inputmode="decimal" autocomplete="off" .value=${typed} @input=${(event) => type(event.target.value)}><span>${unit}</span></span>
    <button class="button main" type="submit" ?disabled=${!ready}>Use it</button></span>${typed && !ready ? html`<p class="wrong">That is no such measure.</p>` : nothing}</form>`;
}
