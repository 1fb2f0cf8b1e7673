// A form over one record of a list (a want, a sighting, a contact), new or to be changed: what its screens share.
import { html } from './html.js';
import { head } from './head.js';
import { hideCosts } from './discretion.js';
import { dropDraft, keepDraft, readDraft } from './draft.js';
import { makeForm, submit } from './field.js';
import { inPlace, leaveOff, mended, whyRefused } from './mending.js';
import { undoLast } from './undo.js';
import { rawTitle } from '../engine/new-coin.js';
import { uuid7 } from '../engine/uuid7.js';
import { takeOver } from '../naming/kept.js';

const empty = (value) => value === '' || value === null || value === undefined || (Array.isArray(value) && !value.length);
const alike = (a, b) => JSON.stringify(a) === JSON.stringify(b) || (empty(a) && empty(b));

/** What a card says, as the fields of its fact: its title as it was typed, the owner's part beside the rest. */
export const rawOf = (card) => ({ ...card, ...card.own, title: rawTitle(card) });

/**
 * `about` says what is particular:
 *   what                want | sighting | contact
 *   title, button, sign `title` and `button` are pairs: for a new one, for a change
 *   blank()             the values of a new one; `said(raw)`: those of one that is there, from the fields of its fact
 *   load(form)          whatever else is to be read; may take a while
 *   read(form, wrong)   → the fact's fields, all that the form holds; a sentence in `wrong` for each that does not work
 *   fields(form)        what is drawn
 *   photo()             a new photo as a Blob, or null
 *   path(id), done(set) where it stands afterwards, and the sentence said then
 */
export function listForm(ui, id, about) {
  const { engine } = ui;
  const { what } = about;
  const add = id === undefined;
  const { values: given, goOn } = takeOver();
  const begun = add && goOn ? readDraft(what) : null;
  const form = makeForm(ui, { ...about.blank(), ...begun?.values, ...(add ? given : {}) }, () => add && keepDraft(what, { values: form.values, instead: refused?.fact.id }));
  let card; // undefined: being read
  let before = null; // the fields as they are now
  let refused = null;
  let ready = false;

  async function load() {
    [card, refused] = await Promise.all([add ? null : engine.card(what, id), mended(ui), about.load?.(form)]);
    const instead = refused?.fact.body.set;
    if (card) {
      before = about.read({ ...form, values: { ...about.blank(), ...about.said(rawOf(card)) } }, {});
      Object.assign(form.values, about.said({ ...rawOf(card), ...instead }), given);
    } else if (add && instead && begun?.instead !== refused.fact.id) Object.assign(form.values, about.said(instead));
    about.loaded?.(form, { add, instead: Boolean(instead), continued: Boolean(begun), given });
    ready = true;
    ui.update();
  }
  load();
  return { title: about.title[add ? 0 : 1], form: true, view, close };

  function close() {
    leaveOff();
    hideCosts();
    about.close?.();
  }

  async function record(event) {
    event.preventDefault();
    const wrong = {};
    const said = about.read(form, wrong);
    if (Object.keys(wrong).length) { form.fail(wrong); return; }
    await form.run(async () => {
      const photo = about.photo?.() ?? undefined;
      const names = Object.keys(said).filter((name) => (add ? !empty(said[name]) : !alike(said[name], before[name])));
      const set = Object.fromEntries(names.map((name) => [name, said[name]]));
      const key = add ? uuid7() : id;
      const to = (sentence, act) => { ui.go(about.path(key), { replace: true }); ui.say(sentence, act ? { act } : {}); };
      if (!names.length && !photo && !add) { to('Nothing was changed.'); return; }
      const base = Object.fromEntries([...names, ...(photo ? ['photo'] : [])].map((name) => [name, before?.[name] ?? card?.[name] ?? null]));
      const made = await engine.record(`${what}.${add ? 'add' : 'edit'}`, { [what]: key, ...(add ? {} : { base }), set }, { photo });
      if (add) dropDraft(what);
      await inPlace(ui, refused, made);
      to(about.done(said, add), { text: 'Void', run: () => undoLast(ui) });
    });
  }

  function again() {
    dropDraft(what);
    for (const name of Object.keys(form.values)) delete form.values[name];
    Object.assign(form.values, about.blank());
    about.loaded?.(form, { add, instead: false, continued: false, given: null });
    form.wrong = {};
    ui.update();
  }

  function view() {
    const title = about.title[add ? 0 : 1];
    const bar = head(ui, { title, back: add ? about.list : about.path(id), close: true });
    if (!ready) return bar;
    if (!add && !card) return html`${bar}<div class="body gap"><p>This ${what} is not on this phone’s list any more.</p><a class="button" href=${about.list}>To the list</a></div>`;
    return html`<form class="fill" @submit=${record} novalidate>${bar}<div class="body gap">${whyRefused(refused)}
      ${begun && !refused ? html`<p class="small soft">Continued from what was begun here. <button type="button" class="button plain" @click=${again}>Start over</button></p>` : ''}
      ${about.fields(form)}</div>${submit(form, about.button[add ? 0 : 1], about.sign)}</form>`;
  }
}

/** Ask, then take a record off its list by `kind`.drop. */
export function askDrop(ui, what, id, { title, words, button, list, done }) {
  ui.sheet(title, () => html`<div class="gap"><p>${words}</p><div class="row"><button class="button grow" @click=${ui.closeSheet}>Keep it</button>
    <button class="button danger grow" @click=${async () => {
      ui.closeSheet();
      try {
        await ui.engine.record(`${what}.drop`, { [what]: id });
        ui.go(list, { replace: true });
        ui.say(done, { act: { text: 'Void', run: () => undoLast(ui) } });
      } catch (error) { ui.say(error.message ?? 'That did not work.', { tone: 'bad' }); }
    }}>${button}</button></div></div>`);
}
