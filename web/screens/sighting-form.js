// Noting a coin on somebody's table in a few seconds: what, for how much, at whose table. The rest may stay empty.
import { html, nothing } from '../parts/html.js';
import { icon } from '../parts/icons.js';
import { today } from '../parts/dates.js';
import { amount, area, cents, choice, date, picker, text, typed } from '../parts/field.js';
import { pickGrade } from '../parts/grade-picker.js';
import { listForm } from '../parts/list-form.js';
import { ownedBeside } from '../parts/owned.js';
import { ANSWERS, atTable, lastTable, readSeen } from '../parts/seen.js';
import { currentShow, showField } from '../parts/show-field.js';
import { makePhoto } from '../parts/form-photo.js';
import { neverStruck, pickType } from '../parts/type-picker.js';
import { gradeSpan } from '../parts/wanted.js';
import { askedBy } from '../naming/kept.js';

const TEXTS = ['table', 'title', 'grade', 'answer', 'note'];

export function open(ui, { id }) {
  const { engine } = ui;
  const photo = makePhoto();
  let book = { contacts: new Map(), shows: new Map(), sightings: [] };
  let wants = [];
  let more = false;
  return listForm(ui, id, {
    what: 'sighting', list: '/seen', sign: 'eye', title: ['Note a sighting', 'Change a sighting'], button: ['Note it', 'Record the change'],
    path: (key) => (id === undefined ? '/seen' : `/seen/${key}`),
    blank: () => ({ dealer: '', table: '', show: '', date: today(), want: '', denom: '', type: '', title: '', year: '', mint: '', grade: '', ask: '', offer: '', answer: '', note: '' }),
    said: (raw) => ({
      ...Object.fromEntries(['dealer', 'mint', 'denom', 'type', ...TEXTS].map((name) => [name, raw[name] ?? ''])), date: raw.date || '', show: raw.show ?? '', want: raw.want ?? '',
      dealer: book.contacts.get(raw.contact)?.name ?? raw.dealer ?? '', year: raw.year == null ? '' : String(raw.year), ask: typed(ui, raw.ask), offer: typed(ui, raw.offer),
    }),
    load: async () => { [book, wants] = await Promise.all([readSeen(engine), engine.list('want')]); },
    loaded,
    read,
    fields,
    photo: () => photo.blob,
    done: (set) => {
      atTable({ show: set.show ?? '', dealer: dealer(set), table: set.table });
      return id === undefined ? `Noted${dealer(set) ? ` at ${dealer(set)}` : ''}.` : 'The sighting is changed.';
    },
    close: photo.close,
  });

  function loaded(form, { add, instead, continued }) {
    const { values } = form;
    more = Boolean(values.offer || values.answer || values.note);
    if (!add || instead || continued) return;
    const at = currentShow([...book.shows.values()]);
    const last = lastTable();
    values.show ||= at?.id ?? '';
    if (last && (last.show || '') === values.show) [values.dealer, values.table] = [values.dealer || last.dealer, values.table || last.table];
    const want = wants.find((one) => one.id === values.want);
    if (want && !values.type && !values.denom) fill(values, want);
  }

  function fill(values, want) {
    const single = /^\d{3,4}$/.test(want.years ?? '') ? want.years : '';
    Object.assign(values, { denom: want.denom, type: want.type, title: want.type ? '' : want.title, year: values.year || single });
  }

  function dealer(set) {
    return book.contacts.get(set.contact)?.name ?? set.dealer ?? '';
  }

  function contactOf(name) {
    const plain = name.trim().toLowerCase();
    return plain ? [...book.contacts.values()].find((one) => one.name.trim().toLowerCase() === plain) ?? null : null;
  }

  function read(form, wrong) {
    const { values } = form;
    const contact = contactOf(values.dealer);
    const set = { contact: contact?.id ?? null, dealer: contact ? '' : values.dealer.trim(), show: values.show || null, date: values.date, denom: values.denom, type: values.type, mint: values.mint.trim().toUpperCase() };
    for (const name of TEXTS) set[name] = values[name].trim();
    set.want = values.want || null;
    const year = values.year.trim();
    set.year = year ? Number(year) : null;
    if (year && !/^\d{3,4}$/.test(year)) wrong.year = 'A date is a year such as 1806; leave it empty where it cannot be read.';
    else if (set.type && set.year) {
      const never = neverStruck(engine.reference, set.type, set.year);
      if (never) wrong.year = never;
    }
    for (const name of ['ask', 'offer']) {
      set[name] = cents(ui, form, name);
      if (Number.isNaN(set[name])) wrong[name] = 'That is not an amount of money.';
    }
    if (wrong.offer) more = true;
    if (!set.want && !set.denom && !set.type && !set.title) wrong.type = 'Say what was seen: a type, or the coin in words.';
    if (engine.state.role !== 'owner') for (const name of ['want', 'offer', 'answer']) delete set[name];
    return set;
  }

  function setDealer(form) {
    const contact = contactOf(form.values.dealer);
    const before = form.values.table || book.sightings.find((one) => one.dealer === form.values.dealer && (one.show ?? '') === form.values.show)?.table || contact?.table;
    if (before && !form.values.table) form.set('table', before);
  }

  function fields(form) {
    const { values } = form;
    const { reference, state } = engine;
    const type = reference.types[values.type];
    const want = wants.find((one) => one.id === values.want);
    const year = /^\d{4}$/.test(values.year) ? Number(values.year) : null;
    const names = [...new Set([...[...book.contacts.values()].map((one) => one.name), ...book.sightings.map((one) => one.dealer)].filter(Boolean))].sort((a, b) => a.localeCompare(b));
    return html`
      ${want ? html`<section class="callout good fills">${icon('wants')}<div class="stack"><p>For the want <b>${want.title}</b>, <span class="figures">${want.years || 'any date'}</span>, ${gradeSpan(want)}.</p>
        <button type="button" class="button plain left" @click=${() => form.set('want', '')}>Not for this want</button></div></section>` : nothing}
      <fieldset class="group"><legend>What was seen</legend>
        ${picker(form, 'type', 'Type', type?.title, () => pickType(ui, { denom: type ? values.denom : '', year, now: values.type }, (key) => {
          values.denom = key ? reference.types[key].denom : '';
          form.set('type', key);
        }), { hint: 'Choose from the catalogue' })}
        ${type ? nothing : html`<a class="button plain left" href="/name" @click=${() => askedBy(location.pathname)}>${icon('glass')}Name it by what it shows</a>${text(form, 'title', 'In words', { hint: 'What it is, where the catalogue has no type' })}`}
        <div class="pair">${amount(ui, form, 'ask', 'Price asked')}${picker(form, 'grade', 'Grade seen', values.grade, () => pickGrade(ui, values.grade, (grade) => form.set('grade', grade)), { hint: 'As you see it' })}</div>
        <div class="pair narrow">${text(form, 'year', 'Date', { max: 4, mode: 'numeric' })}${text(form, 'mint', 'Mint mark', { max: 4, caps: 'characters', hint: 'None' })}</div>
        ${type ? ownedBeside(ui, form, { type: values.type, year, mint: values.mint, grade: values.grade }) : nothing}
      </fieldset>
      <fieldset class="group"><legend>At whose table</legend>
        <div class="pair narrow" @change=${() => setDealer(form)}>${text(form, 'dealer', 'Dealer', { list: names, caps: 'words' })}${text(form, 'table', 'Table', { max: 40, caps: 'characters' })}</div>
        ${showField(form, [...book.shows.values()])}
      </fieldset>
      <div class="row"><label class="button grow file">${icon('camera')}${photo.url ? 'Take it again' : 'Photo'}<input type="file" accept="image/*" capture="environment" @change=${(event) => photo.take(form, event)}></label>
        ${photo.url ? html`<img class="tiny" src=${photo.url} alt="The photo, as taken">` : nothing}</div>
      ${more ? html`<fieldset class="group"><legend>Further</legend>
        ${state.role === 'owner' ? html`<div class="pair">${amount(ui, form, 'offer', 'What you offered')}${choice(form, 'answer', 'The answer', Object.entries(ANSWERS))}</div>` : nothing}
        ${state.role === 'owner' && wants.length ? choice(form, 'want', 'For the want', [['', 'No want'], ...wants.map((one) => [one.id, `${one.title}${one.years ? `, ${one.years}` : ''}`])]) : nothing}
        ${date(form, 'date', 'Day')}${area(form, 'note', 'Note', { rows: 2 })}</fieldset>`
        : html`<button type="button" class="button plain left" @click=${() => { more = true; ui.update(); }}>${icon('add')}Offer, answer, note</button>`}`;
  }
}
