// A coin in the hand that the book does not know: say its type, and hear whether the stock has one as good.
import { html } from './html.js';
import { icon } from './icons.js';
import { makeOwned } from './owned.js';
import { pickGrade } from './grade-picker.js';
import { pickType } from './type-picker.js';
import { askedBy, handOver } from '../naming/kept.js';

/** Ask for the type, then answer; `buy` is the address of the purchase that may follow. */
export function ownOrBetter(ui, buy) {
  pickType(ui, { denom: '', year: null, now: '' }, (key) => {
    if (key) answer(ui, buy, key, '');
    else {
      askedBy(buy);
      ui.go('/name');
    }
  }, { none: ['Name it by what it shows', 'One question after the other'] });
}

function answer(ui, buy, key, grade) {
  const type = ui.engine.reference.types[key];
  const owned = makeOwned(ui);
  const record = () => {
    askedBy(buy);
    ui.closeSheet();
    ui.go(handOver({ denom: type.denom, type: key, grade }));
  };
  ui.sheet(type.title, () => html`<div class="gap">
    ${owned.view({ type: key, grade })}
    <button class="button wide" @click=${() => pickGrade(ui, grade, (said) => answer(ui, buy, key, said))}>${icon('glass')}${grade ? `In the hand: ${grade}` : 'Say its grade'}</button>
    <button class="button main wide" @click=${record}>${icon('buy')}Record a purchase of it</button></div>`);
}
