// A want, new or changed: what is accepted, the window of grades, the most to pay, its priority.
import { html, nothing } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, showCosts } from '../parts/discretion.js';
import { amount, area, cents, picker, segments, text, typed } from '../parts/field.js';
import { pickGrade, readGrade } from '../parts/grade-picker.js';
import { listForm } from '../parts/list-form.js';
import { options } from '../parts/options.js';
import { ownedBeside } from '../parts/owned.js';
import { pickType } from '../parts/type-picker.js';

const TEXTS = ['denom', 'title', 'years', 'grade_from', 'grade_to', 'note'];

export function open(ui, { id }) {
  const { engine } = ui;
  let goals = [];
  return listForm(ui, id, {
    what: 'want', list: '/wants', sign: 'wants', title: ['New want', 'Change a want'], button: ['Put it on the list', 'Record the change'],
    path: (key) => `/wants/${key}`,
    load: async () => { goals = await engine.list('goal'); },
    blank: () => ({ ...Object.fromEntries(TEXTS.map((name) => [name, ''])), types: [], priority: 'usual', ceiling: '', goal: '', slot: '' }),
    said: (raw) => ({ ...Object.fromEntries([...TEXTS, 'goal', 'slot'].map((name) => [name, raw[name] ?? ''])), priority: raw.priority || 'usual',
      types: raw.types?.length ? raw.types : raw.type ? [raw.type] : [], ceiling: typed(ui, raw.ceiling) }),
    read,
    fields,
    done: (set, add) => (add ? 'It is on the want list.' : 'The want is changed.'),
  });

  function read(form, wrong) {
    const { values } = form;
    const { grades } = engine.reference;
    const set = Object.fromEntries(TEXTS.map((name) => [name, values[name].trim()]));
    // One type is the want's own; several are a list, of which the first names it.
    Object.assign(set, { type: values.types[0] ?? '', types: values.types.length > 1 || values.goal ? values.types : [], priority: values.priority, goal: values.goal || null, slot: values.slot });
    if (set.type) set.denom = engine.reference.types[set.type]?.denom ?? set.denom;
    set.ceiling = cents(ui, form, 'ceiling');
    if (Number.isNaN(set.ceiling)) {
      wrong.ceiling = 'That is not an amount of money.';
      showCosts(ui);
    }
    const [low, high] = ['grade_from', 'grade_to'].map((name) => readGrade(set[name], grades).number);
    if (low !== null && high !== null && low > high) wrong.grade_to = `This is below ${set.grade_from}; give the lower grade first.`;
    if (!set.type && !set.denom && !set.title) wrong.denom = 'Say what is wanted: a type, a denomination or words.';
    return set;
  }

  function add(form) {
    pickType(ui, { denom: form.values.denom, year: null, now: '' }, (key) => {
      if (!key || form.values.types.includes(key)) return;
      form.values.denom ||= engine.reference.types[key].denom;
      form.set('types', [...form.values.types, key]);
    });
  }

  function fields(form) {
    const { values } = form;
    const { reference } = engine;
    const goal = goals.find((one) => one.id === values.goal);
    const slot = goal?.slots.find((one) => one.key === values.slot);
    const denom = reference.denominations.find((one) => one.key === values.denom);
    return html`
      ${goal ? html`<p class="callout good">${icon('fits')}<span>For the slot <b>${slot?.title ?? values.slot}</b> of ${goal.name || 'a set'}.</span></p>` : nothing}
      <fieldset class="group"><legend>What is accepted</legend>
        <div class="field"><span class="label">Types</span>
          ${values.types.length ? html`<ul class="accepted">${values.types.map((key) => html`<li><span>${reference.types[key]?.title ?? key}</span>
            <button type="button" class="round" aria-label=${`Not ${reference.types[key]?.title ?? key}`} @click=${() => form.set('types', values.types.filter((one) => one !== key))}>${icon('close')}</button></li>`)}</ul>` : nothing}
          <button type="button" class="button" @click=${() => add(form)}>${icon('add')}${values.types.length ? 'Another type will do, too' : 'Choose a type'}</button></div>
        ${values.types.length ? ownedBeside(ui, form, { type: values.types[0], grade: values.grade_from }) : html`
        ${picker(form, 'denom', 'Denomination', denom?.name, () => ui.sheet('Denomination', () => options(reference.denominations.map((one) => [one.key, one.name]), values.denom, (key) => { ui.closeSheet(); form.set('denom', key); })))}
        ${text(form, 'title', 'In words', { hint: 'What it is, where the catalogue has no type' })}`}
        ${text(form, 'years', 'Dates', { max: 40, hint: 'Any date', help: 'As 1793, or 1800-1808.' })}
        <div class="pair">${picker(form, 'grade_from', 'Grade from', values.grade_from, () => pickGrade(ui, values.grade_from, (grade) => form.set('grade_from', grade)), { hint: 'Any' })}
          ${picker(form, 'grade_to', 'Grade to', values.grade_to, () => pickGrade(ui, values.grade_to, (grade) => form.set('grade_to', grade)), { hint: 'Any' })}</div>
      </fieldset>
      <fieldset class="group"><legend>How much, how soon</legend>
        ${costsHidden() && values.ceiling ? html`<div class="field"><span class="label">Ceiling</span><span class="veil" aria-label="hidden">•••</span></div>${costButton(ui, 'the ceiling')}`
          : html`<div @input=${() => showCosts(ui)}>${amount(ui, form, 'ceiling', 'Ceiling', { help: 'The most to pay, all in.' })}</div>`}
        <div class="field"><span class="label">Priority</span>${segments('priority', values.priority, [['high', 'First'], ['usual', 'Usual'], ['low', 'Some day']], (value) => form.set('priority', value || 'usual'), 'Priority')}</div>
        ${area(form, 'note', 'Note', { rows: 3 })}
      </fieldset>`;
  }
}
