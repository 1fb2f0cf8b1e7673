// Own or better: what the stock has of a type, beside a coin in the hand. One answer, wherever a type is chosen.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { costButton } from './coin-money.js';
import { costsHidden } from './discretion.js';
import { readGrade } from './grade-picker.js';
import { show } from './money.js';
import { count, HELD, STATES } from './words.js';

const SHOWN = 4;
const UNSAID = ['', null, undefined];

/** One sentence: whether `rows` of the stock are of a lower, the same or a better grade than `grade` ('' where none was said). */
export function standing(rows, grade, grades) {
  if (!rows.length) return 'None of this type in your stock.';
  const asked = readGrade(grade, grades);
  const graded = rows.map((row) => ({ text: row.grade, ...readGrade(row.grade, grades) })).filter((one) => one.number !== null && one.strike === asked.strike);
  const best = graded.reduce((top, one) => (top && top.number >= one.number ? top : one), null);
  const has = `You have ${count(rows.length, 'coin')} of this type`;
  if (!best) return `${has}, ${asked.number === null ? 'none graded' : 'none to compare by grade'}.`;
  if (asked.number === null) return `${has}, ${best.text} at best.`;
  if (best.number < asked.number) return `${has}, in a lower grade: ${best.text} at best.`;
  return best.number === asked.number ? `${has}, one in the same grade.` : `${has}, in a better grade: ${best.text}.`;
}

/** [[grade, how many]] of rows, the best first; '' for those without one. */
export function gradesOf(rows, grades) {
  const many = new Map();
  for (const { grade } of rows) many.set(grade, (many.get(grade) ?? 0) + 1);
  const number = ([text]) => readGrade(text, grades).number ?? (text ? 0 : -1);
  return [...many].sort((a, b) => number(b) - number(a) || a[0].localeCompare(b[0]));
}

/** The coins of a type that are ours, wherever they are, the best grade first; rows as engine.search gives them. */
export async function readOwned(engine, type) {
  if (!type) return [];
  const { grades } = engine.reference;
  const numbers = new Map();
  const number = (text) => {
    if (!numbers.has(text)) numbers.set(text, readGrade(text, grades).number ?? 0);
    return numbers.get(text);
  };
  const rows = (await engine.ofType(type)).filter((row) => HELD.includes(row.state) && !row.theirs);
  return rows.sort((a, b) => number(b.grade) - number(a.grade) || (a.year ?? 0) - (b.year ?? 0) || (a.id < b.id ? -1 : 1));
}

/** Those of one date and mint; all where no date is said. */
export const ofIssue = (rows, { year, mint }) => rows.filter((row) => Number(year) === row.year && (row.mint ?? '') === (mint ?? '').trim().toUpperCase());

/** The answer over a screen's life: `view({type, year, mint, grade})` draws it, and reads the stock when the type changed. */
export function makeOwned(ui) {
  const { engine } = ui;
  let now = null; // {type, rows}
  const costs = new Map(); // coin → cents, or null: read at the press
  return { view };

  async function read(type) {
    const rows = await readOwned(engine, type);
    if (now.type !== type) return;
    now.rows = rows;
    ui.update();
  }

  async function readCosts(ids) {
    for (const id of ids) costs.set(id, null);
    for (const card of await Promise.all(ids.map((id) => engine.card('coin', id)))) if (card?.own) costs.set(card.id, card.own.cost_left ?? card.own.cost);
    ui.update();
  }

  function view({ type, year, mint, grade }) {
    if (!type) return nothing;
    if (now?.type !== type) {
      now = { type, rows: null };
      read(type).catch(console.error);
    }
    const { rows } = now;
    if (!rows) return nothing;
    const dated = UNSAID.includes(year) ? [] : ofIssue(rows, { year, mint });
    const first = [...dated, ...rows.filter((row) => !dated.includes(row))].slice(0, SHOWN);
    const owner = engine.state.role === 'owner';
    const hidden = costsHidden();
    const unread = first.map((row) => row.id).filter((id) => !costs.has(id));
    if (owner && !hidden && unread.length) readCosts(unread).catch(console.error);
    return html`<section class="owned ${rows.length ? '' : 'none'}" aria-label="What you have">
      <p role="status">${icon(rows.length ? 'stock' : 'ring')}<span>${standing(rows, grade, engine.reference.grades)}${rows.length && !UNSAID.includes(year)
        ? html` <b>${dated.length ? `${count(dated.length, 'coin')} of this date and mint` : 'None of this date and mint'}.</b>` : nothing}</span></p>
      ${rows.length > 1 ? html`<p class="small soft figures">${gradesOf(rows, engine.reference.grades).map(([text, many], at) => `${at ? ', ' : ''}${text || 'not graded'}${many > 1 ? ` × ${many}` : ''}`).join('')}</p>` : nothing}
      ${first.length ? html`<ul class="menu inner">${first.map((row) => html`<li><a href=${`/c/${row.id}`}><span><b class="figures">${row.dateText}</b> ${row.grade || 'not graded'}
        <small>${[row.state === 'in stock' ? '' : STATES[row.state] ? row.state : '', row.place].filter(Boolean).join(', ')}</small></span>
        ${owner && !hidden ? html`<span class="money">${costs.get(row.id) == null ? html`<span class="soft small">cost not known</span>` : html`<small class="soft">cost</small> ${show(costs.get(row.id), engine.state.currency, { short: true })}`}</span>` : nothing}${icon('on')}</a></li>`)}</ul>
        ${rows.length > first.length ? html`<p class="small soft">and ${count(rows.length - first.length, 'more coin')}</p>` : nothing}
        ${owner ? costButton(ui, 'what they cost') : nothing}` : nothing}</section>`;
  }
}

const kept = new WeakMap(); // what lives as long as its screen, such as a form → its answer

/** The same for a screen's form, which needs to keep nothing itself. */
export function ownedBeside(ui, form, about) {
  if (!kept.has(form)) kept.set(form, makeOwned(ui));
  return kept.get(form).view(about);
}
