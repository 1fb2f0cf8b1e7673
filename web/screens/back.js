// Back from wherever it was: grading, display, memo, consignment, or found again; somebody's coin back to its owner.
import { html } from '../parts/html.js';
import { moveForm } from '../parts/move-form.js';
import { backWords, CAN } from '../parts/coin-doings.js';
import { missing } from '../engine/standing.js';
import { count } from '../parts/words.js';

const GOING = { button: 'It goes back to its owner', done: 'back with its owner', told: 'Unsold: it leaves your case.' };
const HERE = { button: 'It is back', done: 'back in stock', told: '' };
const FOUND = { button: 'It is found', done: 'back in stock', told: '' };

export function open(ui, { id }) {
  let card;
  const words = () => (!card ? HERE : backWords(card)[0] === 'To owner' ? GOING : backWords(card)[0] === 'Found' ? FOUND : HERE);
  const about = {
    kind: 'back', title: 'Back', sign: 'undo', joins: 'Another coin with it', values: {},
    fits: (one) => CAN.back(one) || (card && one.theirs !== card.theirs ? 'It belongs to somebody else.' : ''),
    begin(form, found) {
      card = found;
      Object.assign(about, { title: backWords(card)[1], button: words().button });
    },
    ids: (body) => body.coins,
    said: () => ({}),
    fields: (form, cards) => {
      const { where, state } = cards[0];
      const lot = cards[0].pieces && missing(cards[0]) > 0 ? ` ${count(missing(cards[0]), 'piece')} of the lot ${missing(cards[0]) === 1 ? 'is' : 'are'} missing.` : '';
      return html`<p class="small soft">${where?.with ? `It is ${state}, with ${where.with}.` : `It is ${state}.`}${lot} ${words().told}</p>`;
    },
    read: (form, cards) => ({ coins: cards.map((one) => one.id) }),
    done: (form, cards) => `${cards.length === 1 ? 'It is' : `${count(cards.length, 'coin')} are`} ${words().done}.`,
  };
  return moveForm(ui, id, about);
}
