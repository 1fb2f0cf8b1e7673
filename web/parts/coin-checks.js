// The identification checklist in short: how far it is, and each line with its answer.
import { html, nothing } from './html.js';
import { icon } from './icons.js';

export const ANSWERS = {
  fits: { sign: 'fits', tone: 'good', words: 'Fits' },
  differs: { sign: 'differs', tone: 'bad', words: 'Does not fit' },
  unsure: { sign: 'unsure', tone: 'warn', words: 'Cannot tell' },
};

// The looks that are asked of this coin's date.
export function looksFor(card, type) {
  return (type?.looks ?? []).filter((one) => !one.years || card.year === null || card.year === undefined || one.years.includes(card.year));
}

export function lookName(look, reference) {
  return reference?.features?.[look.feature]?.name ?? look.look;
}

export function tally(card, looks) {
  const given = looks.map((one) => card.checks?.[one.key]?.answer).filter(Boolean);
  return { of: looks.length, done: given.length, differs: given.filter((a) => a === 'differs').length, unsure: given.filter((a) => a === 'unsure').length };
}

export function checkSummary(card, type, reference) {
  const looks = looksFor(card, type);
  if (!looks.length) {
    return html`<section class="panel"><header><h2>Identification</h2></header>
      <p class="soft">${card.type ? 'No checklist is written for this type yet.' : 'No checklist: the coin is not matched to a type of the catalogue. Set its type at the desk.'}</p></section>`;
  }
  const { of, done, differs, unsure } = tally(card, looks);
  return html`<section class="panel" aria-labelledby="checks-title">
    <header><h2 id="checks-title">Identification</h2><a class="button plain" href=${`/c/${card.id}/checks`}>${done ? 'Go on' : 'Start'}${icon('on')}</a></header>
    <p><a href=${`/types/${card.type}`}>${type.name}</a>: ${done} of ${of} looked at${differs ? html`, <b class="bad">${differs} ${differs === 1 ? 'does' : 'do'} not fit</b>` : nothing}${unsure ? html`, <span class="warn">${unsure} not clear</span>` : nothing}.</p>
    <ol class="marks" aria-label="Answers so far">${looks.map((look) => {
      const answer = ANSWERS[card.checks?.[look.key]?.answer];
      return html`<li class=${answer?.tone ?? 'none'}>${icon(answer?.sign ?? 'ring')}<span>${short(look, reference)}</span>${answer ? html`<span class="hide">: ${answer.words}</span>` : html`<span class="hide">: not looked at</span>`}</li>`;
    })}</ol>
  </section>`;
}

const short = (look, reference) => lookName(look, reference);
