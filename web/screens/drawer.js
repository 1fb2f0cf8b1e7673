// The cash drawer counted by coin and note, against the cash that should be in it.
import { html, live, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { dropDraft, keepDraft, readDraft } from '../parts/draft.js';
import { parse, show as money } from '../parts/money.js';
import { showDate, today } from '../parts/dates.js';
import { chosenShow } from '../parts/show-field.js';
import { undoLast } from '../parts/undo.js';
import * as floor from '../engine/at-show.js';
import { explainSheet } from './differences.js';

const FREE = ['free-0', 'free-1', 'free-2', 'free-3']; // where the currency's coins and notes are not known
const MOST = 100_000;

export function open(ui) {
  const { engine } = ui;
  const { currency } = engine.state;
  let show;
  let now = null;
  let said = null;
  let settled = [];
  let numbers = {}; // name → what was typed
  let problem = '';
  let busy = false;
  const table = engine.reference?.cash?.[currency];
  const worths = table ? [...table.notes.toReversed().map((cents) => [`note-${cents}`, cents]), ...table.coins.toReversed().map((cents) => [`coin-${cents}`, cents])] : [];
  const draft = () => `drawer.${show.id}`;
  const number = (name) => (/^\d{1,6}$/.test((numbers[name] ?? '').trim()) && Number(numbers[name]) <= MOST ? Number(numbers[name]) : (numbers[name] ?? '').trim() ? NaN : 0);
  const rows = () => [...worths, ...(table ? [] : FREE.map((name) => [name, parse(numbers[`worth-${name}`] ?? '', currency)]))]
    .map(([name, cents]) => ({ name, cents, number: number(name) })).filter((row) => row.number !== 0);
  const counted = () => rows().reduce((sum, row) => sum + (row.cents || 0) * (row.number || 0), 0);
  const off = (cents) => (cents === 0 ? html`<span class="good state">${icon('fits')}agrees</span>` : html`<span class="bad state">${icon('warn')}${money(Math.abs(cents), currency)} ${cents > 0 ? 'over' : 'short'}</span>`);
  const box = (name, label) => html`<input type="text" inputmode="numeric" autocomplete="off" maxlength="6" aria-label=${label} .value=${live(numbers[name] ?? '')} @input=${(event) => set(name, event.target.value)}>`;
  load();
  return { title: 'Cash drawer', form: true, view, changed: load };

  async function load() {
    const first = show === undefined;
    const at = chosenShow(await engine.list('show'));
    now = at && await floor.money(at);
    said = at && await floor.saidBefore(at.id);
    settled = floor.explained();
    show = at;
    if (first && at) numbers = readDraft(draft()) ?? {};
    ui.update();
    const { online, waiting, lastSync } = engine.state; // the desk says under which key a difference is explained
    if (!now?.drawer || now.drawer.fact || !online || waiting || said?.made >= lastSync) return;
    said = await floor.askDesk(at.id).catch(() => said);
    ui.update();
  }

  function set(name, value) {
    numbers[name] = value;
    problem = '';
    keepDraft(draft(), numbers);
    ui.update();
  }

  async function record(event) {
    event.preventDefault();
    const pieces = rows();
    const odd = pieces.find((row) => Number.isNaN(row.number));
    if (odd) { problem = `“${numbers[odd.name]}” is no number of coins or notes; give a whole number.`; ui.update(); return; }
    if (pieces.some((row) => !row.cents)) { problem = 'Give what one of these is worth.'; ui.update(); return; }
    if (busy) return;
    busy = true;
    try {
      await engine.record('drawer', { show: show.id, date: today(), pieces: pieces.map((row) => ({ cents: row.cents, number: row.number })) });
      dropDraft(draft());
      numbers = {};
      ui.say('The drawer is counted.', { act: { text: 'Void', run: () => undoLast(ui) } });
    } catch (error) { problem = error.message; }
    busy = false;
    await load();
  }

  function view() {
    const bar = head(ui, { title: 'Cash drawer', back: '/show' });
    if (show === undefined) return bar;
    if (!show) return html`${bar}<div class="body gap"><p>Choose the show first.</p><a class="button main" href="/more/shows">${icon('show')}Choose a show</a></div>`;
    if (!now) return html`${bar}<div class="body gap"><p>Only the owner counts the drawer.</p></div>`;
    return html`<form class="fill" @submit=${record} novalidate>${bar}<div class="body gap">
      ${now.drawer ? last() : nothing}
      <div class="drawer-rows">${worths.map(([name, cents]) => line(name, money(cents, currency, { short: cents >= 100 }), cents))}
        ${table ? nothing : FREE.map((name, at) => html`<div class="line"><input aria-label=${`Worth of one, line ${at + 1}`} inputmode="decimal" placeholder="Worth" .value=${live(numbers[`worth-${name}`] ?? '')} @input=${(event) => set(`worth-${name}`, event.target.value)}>
          ${box(name, `Number, line ${at + 1}`)}<span></span></div>`)}</div>
      ${problem ? html`<p class="bad" role="alert">${problem}</p>` : nothing}
    </div><div class="actions"><dl class="ledger"><div><dt>Should be there</dt><dd class="money" id="drawer-due">${money(now.cash, currency)}</dd></div>
        <div class="total"><dt>Counted</dt><dd class="figures">${money(counted(), currency)}</dd></div></dl>
      ${rows().length ? html`<p class="sum" role="status"><span>Difference</span>${off(counted() - now.cash)}</p>` : nothing}
      <div class="line"><button class="button main grow" type="submit" aria-disabled=${busy ? 'true' : nothing}>${icon('fits')}Record the count</button></div></div></form>`;
  }

  function last() {
    const { drawer } = now;
    const difference = drawer.cents - now.cash;
    const key = drawer.fact ? `cash/${drawer.fact}` : said?.cash_key;
    const note = settled.findLast(([one]) => one === key)?.[1] ?? (key && said?.cash_key === key ? said.cash_settled : null);
    return html`<div class="callout ${difference ? 'warn' : 'good'}" id="drawer-last">${icon(difference ? 'warn' : 'fits')}<div class="stack">
      <p><b>Counted on ${showDate(drawer.date)}: ${money(drawer.cents, currency)}.</b> ${off(difference)}</p>
      ${note ? html`<p class="soft">Explained: ${note}</p>` : difference && key ? html`<button type="button" class="button" @click=${() => explainSheet(ui, { show: show.id, key })}>${icon('note')}Explain it in words</button>` : nothing}</div></div>`;
  }

  function line(name, label, cents) {
    const many = number(name);
    return html`<div class="line"><span>${label}${name.startsWith('coin') && worths.some(([other]) => other === `note-${cents}`) ? html` <small class="soft">coin</small>` : nothing}</span>
      ${box(name, `How many of ${label}${name.startsWith('coin') ? ', coins' : ''}`)}<span class="figures">${many > 0 ? money(many * cents, currency) : nothing}</span></div>`;
  }
}
