// A set as a board of round windows: the owner's photo in each that is filled, an open slot dark. State is said in words, too.
import { html, nothing, repeat } from './html.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { photoUrl } from './photo-url.js';
import { gradeSpan } from './wanted.js';

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

/** `wanted`: slot key → want; `press(slot)` tells more of it. */
export function board(ui, goal, wanted, press) {
  const { reference } = ui.engine;
  return html`<ul class="goal-board">${repeat(goal.slots, (slot) => slot.key, (slot) => {
    const { coin } = slot;
    const [words, sign, tone] = standing(slot, wanted.get(slot.key));
    const denom = denomOf(slot);
    return html`<li><button type="button" class="slot ${coin ? '' : 'open'}" aria-haspopup="dialog" @click=${() => press(slot)}>
      <span class="slot-name">${slot.title}</span>
      ${holder({ denom, top: mark(denom, reference), open: !coin, photo: coin?.photo ? photoUrl({ photo: coin.photo }, 'thumb') : '' })}
      ${coin ? html`<span class="figures"><b>${coin.dateText}</b> ${coin.grade || 'not graded'}</span>` : html`<span class="soft small">${asks(slot) || 'any grade'}</span>`}
      <span class="state small ${tone}">${icon(sign)}${words}</span></button></li>`;
  })}</ul>`;
}

/** A row of small holes: how full a set is, at a glance. Decorative: the words stand beside it. */
export const holes = (goal, most = 24) => html`<span class="holes" aria-hidden="true">${goal.slots.slice(0, most).map((slot) => html`<i class=${slot.coin ? 'full' : ''}></i>`)}${goal.slots.length > most ? html`<small>+${goal.slots.length - most}</small>` : nothing}</span>`;
