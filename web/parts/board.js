// A set as a board of round windows: the owner's photo in each that is filled, an open slot dark. State is said in words, too.
import { html, nothing, ref, render } from './html.js';
import { holder, mark } from './holder.js';
import { photoUrl } from './photo-url.js';
import { gradeSpan } from './wanted.js';

const FIRST = 9; // slots drawn at once: about what a phone shows
const AHEAD = '800px'; // how near the screen the others are drawn
const WATCHED = 6; // so many slots are watched as one: every one watched costs time in every frame
const FRAME_MS = 8; // of a frame that may go into drawing slots, from making them to painting; at least one is drawn in each
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
  if (slot.upgrade) return [`better from ${slot.upgrade[0].replace('-', '-\u2060')}`, 'high', ''];
  return ['as good as asked', 'fits', 'good'];
}

/**
 * A board over a screen's life. `view(slots, wanted)` draws it, `wanted`: slot key → want; `press(slot)` is told of a tap. A slot
 * is drawn when it comes near the screen, a few in each frame, so that a board of hundreds opens and scrolls without a pause;
 * `close()` ends that.
 */
export function makeBoard(ui, press) {
  let now = { slots: [], wanted: new Map() };
  let list = null; // the element, while it is on the page
  let items = [];
  let drawn = new Set(); // those that are drawn
  let watch = null;
  const queue = new Set(); // items near the screen, still to be drawn
  let frame = 0;
  let each = FRAME_MS; // what a slot took lately, in ms
  return { view, close: end };

  function end() {
    watch?.disconnect();
    cancelAnimationFrame(frame);
    queue.clear();
    frame = 0;
  }

  function near(found) {
    for (const { isIntersecting, target } of found) {
      for (const item of items.slice(target.at, target.at + WATCHED)) {
        if (isIntersecting && !drawn.has(item)) queue.add(item);
        else queue.delete(item); // gone by before it was drawn
      }
    }
    frame ||= queue.size && requestAnimationFrame(some);
  }

  function some() {
    const began = performance.now();
    const batch = [...queue].slice(0, Math.max(1, Math.min(FIRST, Math.floor(FRAME_MS / each))));
    for (const item of batch) {
      draw(item);
      if (item.at % WATCHED === 0) watch.unobserve(item);
    }
    setTimeout(() => { each = (performance.now() - began) / batch.length; }); // after the frame is laid out and painted
    frame = queue.size && requestAnimationFrame(some);
  }

  function draw(item) {
    queue.delete(item);
    drawn.add(item);
    render(one(ui, now.slots[item.at], now.wanted.get(now.slots[item.at].key), press), item.firstChild);
  }

  function fill() {
    end();
    drawn = new Set();
    watch = new IntersectionObserver(near, { root: list.closest('.pane'), rootMargin: AHEAD });
    items = now.slots.map((_, at) => Object.assign(document.createElement('li'), { at }));
    // Each with a box of its own from the start: being there already, and contained, it is laid out without the rest of the page.
    for (const item of items) item.append(Object.assign(document.createElement('div'), { className: 'cell' }));
    list.replaceChildren(...items);
    items.slice(0, FIRST).forEach(draw);
    for (let at = 0; at < items.length; at += WATCHED) watch.observe(items[at]);
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
  const [words, , tone] = standing(slot, want);
  const denom = denomOf(slot);
  return html`<button type="button" class="slot ${coin ? '' : 'open'}" aria-haspopup="dialog" @click=${() => press(slot)}>
    <span class="slot-name">${slot.title}</span>
    ${holder({ denom, top: mark(denom, ui.engine.reference), open: !coin, photo: coin?.photo ? photoUrl({ photo: coin.photo }, 'thumb') : '', painted: true })}
    ${coin ? html`<span class="figures"><b>${coin.dateText}</b> ${coin.grade || 'not graded'}</span>` : html`<span class="soft small">${asks(slot) || 'any grade'}</span>`}
    <span class="state small ${tone}">${words}</span></button>`;
}

/** A row of small holes: how full a set is, at a glance. Decorative: the words stand beside it. */
export const holes = (goal, most = 24) => html`<span class="holes" aria-hidden="true">${goal.slots.slice(0, most).map((slot) => html`<i class=${slot.coin ? 'full' : ''}></i>`)}${goal.slots.length > most ? html`<small>+${goal.slots.length - most}</small>` : nothing}</span>`;
