// What a coin is worth by the desk's estimates, and the ceiling of a want: the owner's panels. Read from this phone alone.
import { html, nothing } from './html.js';
import { curve } from './curve.js';
import { showDate, today } from './dates.js';
import { costsHidden } from './discretion.js';
import { show } from './money.js';
import { count } from './words.js';
import { names } from '../engine/reference.js';
import { ceiling, ofType, rowsFor } from '../engine/worth.js';

/** What the panel of a coin (fields `type`, `grade`, `year`, `mint`) shows. */
export const readWorth = (card) => ofType(card.type);
export const readCeiling = (want) => ceiling(want.id);

export function coinWorth(ui, card, held) {
  const { currency } = ui.engine.state;
  const number = names.gradeNumber(card.grade);
  const rows = rowsFor(held, card);
  const row = rows?.find(([each]) => each === number);
  const melt = held?.melt?.[card.year ?? ''];
  const lot = card.pieces > 1;
  const cost = card.own?.cost ? Math.ceil(card.own.cost / (card.pieces || 1)) : null;
  return html`<section class="panel worth-panel" aria-labelledby="worth-title">
    <header><h2 id="worth-title">Worth${lot ? ', each piece' : ''}</h2></header>
    ${costsHidden() ? html`<p class="soft">Shows and hides together with what it cost.</p>` : estimate()}
  </section>`;

  function estimate() {
    return html`${row ? html`<p><b class="money lead">${show(row[2], currency)}</b> <span class="nowrap">${show(row[1], currency)} to ${show(row[3], currency)}</span></p>
      <p class="small">Rests on ${count(row[4], 'sale')}, the newest ${old(row[5])}. About four in five further sales would fall between the two.</p>`
    : html`<p class="soft">${why(card, held, rows)}</p>`}
    ${rows ? curve(rows, { grade: number, cost, currency }) : nothing}
    ${melt ? html`<dl class="ledger"><div><dt>Metal, as struck</dt><dd class="money">${show(melt, currency)}</dd></div></dl>` : nothing}
    ${held ? html`<p class="soft small">Worked out by the desk on ${showDate(held.made)}${stale(held.made)}. An estimate informs; it is no appraisal.</p>` : nothing}`;
  }
}

/** The desk's ceiling of a want, with its arithmetic. */
export function wantCeiling(ui, said) {
  const { currency } = ui.engine.state;
  if (!said || costsHidden()) return nothing;
  return html`<section class="panel worth-panel" aria-labelledby="rule-title"><header><h2 id="rule-title">Ceiling by your rule</h2></header>
    ${said.cents === null ? html`<p class="soft">${said.why}</p>` : html`
      <dl class="ledger">${said.lines.map((line) => html`<div><dt>${line.what[0].toUpperCase()}${line.what.slice(1)}</dt><dd>${show(line.cents, currency)}</dd></div>`)}
      <div class="total"><dt>The most to pay</dt><dd class="money">${show(said.cents, currency)}</dd></div></dl><p class="soft small">${said.why}</p>`}
    <p class="soft small">Worked out by the desk on ${showDate(said.made)}${stale(said.made)}.</p></section>`;
}

function why(card, held, rows) {
  if (!held) return 'No estimates on this phone yet. They come with the next sync.';
  if (!held.sales) return 'No evidence: no sale of this type is recorded.';
  if (!card.grade) return 'Give the coin a grade, and its estimate appears here.';
  return rows ? `No evidence near ${card.grade}: nothing is said further than one rung from a recorded sale.` : `No evidence for ${card.grade}.`;
}

/** Cents of one piece in the middle of the estimate, or null. `held` as readWorth(card) has it. */
export function estimate(card, held) {
  const number = names.gradeNumber(card.grade);
  return rowsFor(held, card)?.find(([each]) => each === number)?.[2] ?? null;
}

const days = (iso) => Math.max(0, Math.round((Date.parse(today()) - Date.parse(iso)) / 86_400_000));

/** “today”, “12 days old”, “3 months old”, “2 years old”. */
export function old(iso) {
  const gone = days(iso);
  if (gone < 1) return 'of today';
  if (gone < 60) return `${count(gone, 'day')} old`;
  if (gone < 730) return `${Math.floor(gone / 30.44)} months old`;
  return `${Math.floor(gone / 365.25)} years old`;
}

const stale = (made) => (days(made) > 1 ? `, ${count(days(made), 'day')} ago` : '');
