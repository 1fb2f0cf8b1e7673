// A set as a board of round windows: the owner's photo in each that is filled, an open slot dark. State is said in words, too.
import { html, nothing, ref, render } from './html.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { photoUrl } from './photo-url.js';
import { gradeSpan } from './wanted.js';

const FIRST = 9; // slots drawn at once: about what a phone shows
const AHEAD = '500px'; // how near the screen the others are drawn
const denomOf = (slot) => slot.types[0]?.split('/')[0] ?? '';
const MARKS = (mints) => `mint ${mints.map((one) => one || 'without a mark').join(', ')}`;

/** What a slot asks for, in a few words; '' where any coin of its types will do. */
export function asks(slot) {
  return [
    slot.grade_from || slot.grade_to ? gradeSpan(slot) : '', slot.issues?.length ? slot.issues.join(', ') : slot.years, slot.mints?.length ? MARKS(slot.mints) : '',
    slot.strike === 'proof' ? 'proof' : slot.strike === 'business' ? 'business strike' : '', slot.problem_free ? 'no problems' : '',
  ].filter(Boolean).join('; ');
}

/** [words, sign, tone] of how a slot stands; `want` is the want for it, if there is one. */
export function standing(slot, want) {
  const { coin } = slot;
  if (!coin) return want ? ['wanted', 'wants', 'warn'] : ['open', 'ring', ''];
  if (coin.state) return [coin.state, 'out', 'warn'];
  if (slot.upgrade) return [`better from ${slot.upgrade[0].replace('-', '\u2011')}`, 'high', ''];
  return ['as good as asked', 'fits', 'good'];
}

/**
 * A board over a screen's life. `view(slots, wanted)` draws it, `wanted`: slot key → want; `press(slot)` is told of a tap. A slot
 * is drawn when it comes near the screen, so that a board of hundreds opens and scrolls without a pause; `close()` ends that.
 */
export function makeBoard(ui, press) {
  let now = { slots: [], wanted: new Map() };
  let list = null; // the element, while it is on the page
  let drawn = new Set(); // its items that are drawn
  let watch = null;
  const near = (found) => { for (const one of found) if (one.isIntersecting) draw(one.target); };
  return { view, close: () => watch?.disconnect() };

  function draw(item) {
    watch?.unobserve(item);
    drawn.add(item);
    render(one(ui, now.slots[item.at], now.wanted.get(now.slots[item.at].key), press), item);
  }

  function fill() {
    watch?.disconnect();
    drawn = new Set();
    watch = new IntersectionObserver(near, { root: list.closest('.pane'), rootMargin: AHEAD });
    const items = now.slots.map((_, at) => Object.assign(document.createElement('li'), { at }));
    list.replaceChildren(...items);
    items.slice(0, FIRST).forEach(draw);
    for (const item of items.slice(FIRST)) watch.observe(item);
  }

  function mount(element) {
    list = element ?? null;
    if (list) fill();
  }

  function view(slots, wanted) {
    const [same, before] = [slots === now.slots && wanted === now.wanted, now];
    now = { slots, wanted };
    if (list && !same) {
      if (slots.length === before.slots.length && slots.every((slot, at) => slot.key === before.slots[at].key)) for (const item of drawn) draw(item);
      else fill();
    }
    return html`<ul class="goal-board" ${ref(mount)}></ul>`;
  }
}

function one(ui, slot, want, press) {
  const { coin } = slot;
  const [words, sign, tone] = standing(slot, want);
  const denom = denomOf(slot);
  return html`<button type="button" class="slot ${coin ? '' : 'open'}" aria-haspopup="dialog" @click=${() => press(slot)}>
    <span class="slot-name">${slot.title}</span>
    ${holder({ denom, top: mark(denom, ui.engine.reference), open: !coin, photo: coin?.photo ? photoUrl({ photo: coin.photo }, 'thumb') : '' })}
    ${coin ? html`<span class="figures"><b>${coin.dateText}</b> ${coin.grade || 'not graded'}</span>` : html`<span class="soft small">${asks(slot) || 'any grade'}</span>`}
    <span class="state small ${tone}">${icon(sign)}${words}</span></button>`;
}

/** A row of small holes: how full a set is, at a glance. Decorative: the words stand beside it. */
export const holes = (goal, most = 24) => html`<span class="holes" aria-hidden="true">${goal.slots.slice(0, most).map((slot) => html`<i class=${slot.coin ? 'full' : ''}></i>`)}${goal.slots.length > most ? html`<small>+${goal.slots.length - most}</small>` : nothing}</span>`;
