// One question: what to look at, its answers with their drawings, and "cannot tell".
import { html, nothing } from '../parts/html.js';
import { CANNOT_TELL } from '../name/index.js';
import { drawing } from '../type/drawing.js';
import { MEASURES } from './measure.js';

const MANY = 8;
const UNLIKELY = 0.002;

export function makeQuestion(ui, question, give) {
  const measure = MEASURES[question.kind]?.(ui, give);
  let all = false;

  function answers() {
    const list = question.answers ?? [];
    const likely = list.length > MANY && !all ? list.filter((one) => one.p > UNLIKELY).sort((a, b) => b.p - a.p).slice(0, MANY) : list;
    return html`<div class="answers">${likely.map((one) => html`<button class="answer" @click=${() => give(one.value)}>${drawing(question.feature, one.value)}<span>${one.words}</span></button>`)}
      ${likely.length < list.length ? html`<button class="answer plain" @click=${() => { all = true; ui.update(); }}><span>Another of ${list.length}</span></button>` : nothing}</div>`;
  }

  return () => html`<section class="asked" aria-labelledby="asked">
    <h2 id="asked">${question.name}</h2><p>${question.look}${question.effort === 2 ? html` <span class="soft">With a glass.</span>` : question.effort >= 3 ? html` <span class="soft">Out of the holder, by the edge.</span>` : nothing}</p>
    ${measure ? measure() : answers()}
    <button class="button wide" @click=${() => give(CANNOT_TELL)}>Cannot tell</button></section>`;
}
