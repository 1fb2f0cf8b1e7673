// A grade from the ladder: strike, step and number, designations, details. Composes the one way it is written.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { segments } from './field.js';

// {strike, step, number, marks, details, problem} of a written grade; a net grade is left to the desk.
export function readGrade(text, grades) {
  const hit = (text ?? '').match(/^([A-Z]+)(?:-(\d+))?(\+?)((?: [0-9A-Z]+)*)( Details)?(?: \((.*)\))?$/);
  const start = { strike: '', step: '', number: null, plus: false, marks: [], details: false, problem: '' };
  if (!hit) return start;
  const strike = grades.strikes.some((one) => one.key === hit[1]) ? hit[1] : '';
  return { strike, step: strike ? '' : hit[1], number: hit[2] ? Number(hit[2]) : null, plus: Boolean(hit[3]), marks: hit[4].trim().split(' ').filter(Boolean), details: Boolean(hit[5]), problem: hit[6] ?? '' };
}

export function writeGrade({ strike, step, number, plus, marks, details, problem }) {
  const prefix = strike || step;
  if (!prefix) return '';
  return `${prefix}${number === null ? '' : `-${number}`}${plus ? '+' : ''}${marks.map((m) => ` ${m}`).join('')}${details ? ' Details' : ''}${details && problem ? ` (${problem})` : ''}`;
}

export function pickGrade(ui, now, choose) {
  const { grades } = ui.engine.reference;
  let g = readGrade(now, grades);
  const set = (change) => { g = { ...g, ...change }; fit(); ui.update(); };
  const marksFor = () => grades.marks.filter((mark) => !mark.on.length || mark.on.includes(g.strike || g.step));
  function fit() {
    const open = new Set(marksFor().map((mark) => mark.key));
    const order = grades.marks.map((mark) => mark.key);
    g.marks = g.marks.filter((mark) => open.has(mark)).sort((a, b) => order.indexOf(a) - order.indexOf(b));
  }
  const mark = (one) => {
    const group = new Set(grades.marks.filter((each) => each.group === one.group).map((each) => each.key));
    set({ marks: g.marks.includes(one.key) ? g.marks.filter((m) => m !== one.key) : [...g.marks.filter((m) => !group.has(m)), one.key] });
  };
  const pick = (step, number) => set({ step: g.strike ? '' : step, number });

  ui.sheet('Grade', () => {
    const strike = grades.strikes.find((one) => one.key === g.strike);
    const top = (step) => Math.max(...step.numbers);
    return html`<div class="gap">
      <p class="grade-now serif" role="status">${writeGrade(g) || 'No grade'}</p>
      ${segments('strike', g.strike || 'none', [['none', 'Business'], ...grades.strikes.map((one) => [one.key, one.name])], (value) => set({ strike: value === 'none' ? '' : value, step: '', number: null, marks: [] }), 'Way of striking')}
      <div class="steps">${grades.steps.filter((step) => !strike || top(step) >= 50).toReversed().map((step) => html`<div class="step"><span>${step.name}</span>
        <span class="numbers">${[...step.numbers].map((n) => html`<button class="pick ${n === g.number ? 'on' : ''}" aria-pressed=${String(n === g.number)}
          aria-label=${`${strike ? strike.name : step.name} ${n}`} @click=${() => pick(step.key, n)}>${n}</button>`)}</span></div>`)}</div>
      ${marksFor().length && (g.step || g.number) ? html`<div class="stack"><span class="label soft small">Designations</span><div class="row wrap">${marksFor().map((one) => html`
        <button class="pick ${g.marks.includes(one.key) ? 'on' : ''}" aria-pressed=${String(g.marks.includes(one.key))} title=${one.name} @click=${() => mark(one)}>${one.key}<span class="hide"> ${one.name}</span></button>`)}</div></div>` : nothing}
      <label class="tick"><input type="checkbox" .checked=${g.details} @change=${(event) => set({ details: event.target.checked })}><span>Details grade: the coin has a problem</span></label>
      ${g.details ? html`<div class="field"><label for="f-problem">Problem</label><span class="select"><select id="f-problem" @change=${(event) => set({ problem: event.target.value })}>
        <option value="">Not said</option>${grades.problems.map((one) => html`<option value=${one} ?selected=${one === g.problem}>${one}</option>`)}</select>${icon('down')}</span></div>` : nothing}
      <div class="row"><button class="button" @click=${() => { ui.closeSheet(); choose(''); }}>No grade</button>
        <button class="button main grow" @click=${() => { ui.closeSheet(); choose(writeGrade(g)); }}>Use ${writeGrade(g) || 'no grade'}</button></div>
    </div>`;
  });
}
