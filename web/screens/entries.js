// What this phone has entered: what waits, what became of the rest, and a way out by file.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { ago, showTime } from '../parts/dates.js';
import { linesOf, roundWords } from '../parts/entry-lines.js';
import { entryCoin, entryWords } from '../parts/entry-words.js';
import { notice } from '../parts/notice.js';
import { mend } from '../parts/mend.js';
import { saveEntries } from '../parts/save-entries.js';
import { undoLast } from '../parts/undo.js';
import { count, showId } from '../parts/words.js';

const VERDICTS = {
  applied: ['fits', 'good', 'Taken'], merged: ['fits', 'good', 'Taken, with another change'],
  contested: ['warn', 'warn', 'Kept, needs a look at the desk'], refused: ['warn', 'bad', 'Refused'],
};

const RECEIPTS = ['sale', 'ticket', 'purchase', 'trade'];

export function open(ui) {
  const { engine } = ui;
  let entries = null;
  let titles = new Map();
  let limit = 50;
  let turn = 0;

  async function load() {
    const mine = ++turn;
    const found = await engine.entries();
    const ids = [...new Set(found.slice(0, limit + 50).map((one) => entryCoin(one.fact)).filter(Boolean))];
    const cards = await Promise.all(ids.map((id) => engine.card('coin', id)));
    if (mine !== turn) return;
    entries = found;
    titles = new Map(cards.filter(Boolean).map((card) => [card.id, card]));
    ui.update();
  }
  load();
  return { title: 'Entries', changed: load, view };

  async function sync() {
    await engine.sync().catch(() => {});
    ui.say(engine.state.online ? 'In step with the desk.' : 'The desk is out of reach. The entries are safe here.');
  }

  function look(id) {
    const row = document.getElementById(`e-${id}`);
    row?.scrollIntoView({ block: 'center' });
    row?.focus();
  }

  function view() {
    const { state } = engine;
    const list = entries ?? [];
    const trouble = list.filter(({ state: at }) => at === 'refused' || at === 'contested');
    const waiting = list.filter(({ state: at }) => at === 'waiting');
    const rest = linesOf(list.filter(({ fact, state: at }) => at === 'taken' || fact.by));
    const waits = linesOf(waiting);
    return html`${head(ui, { title: 'Entries' })}<div class="body gap">
      ${state.full ? html`<div class="callout bad" role="alert">${icon('warn')}<p><b>This phone is full.</b> Nothing more can be recorded until there is room. Free some space, or save the entries to a file now.</p></div>` : nothing}
      ${state.unknown ? html`<div class="callout bad" role="alert">${icon('warn')}<div class="stack"><p><b>The desk does not know this phone any more.</b> Pair it again with a new code: nothing here is lost, and what waits goes along.</p>
        <button class="button" @click=${ui.pairAgain}>${icon('phone')}Pair again</button></div></div>` : state.trouble && state.online ? html`<div class="callout bad">${icon('warn')}<p>${state.trouble}</p></div>` : nothing}
      ${state.notice.map((one) => notice(ui, one))}
      <section class="standing">
        <p class="lead">${state.waiting ? html`<b class="figures">${state.waiting}</b> ${state.waiting === 1 ? 'entry waits' : 'entries wait'} to be sent` : 'Nothing waits to be sent'}</p>
        <p class="soft">${state.syncing ? 'Comparing with the desk …' : state.lastSync ? `Last in step ${ago(state.lastSync)}, at ${showTime(state.lastSync)}.` : 'Not in step yet.'} ${state.online === false ? 'The desk is out of reach now.' : ''}</p>
        ${Math.abs(state.skewMs ?? 0) > 120_000 ? html`<p class="warn small">This phone’s clock is ${count(Math.round(Math.abs(state.skewMs) / 60_000), 'minute')} ${state.skewMs > 0 ? 'ahead of' : 'behind'} the desk’s. Entries are ordered by the desk, so nothing is lost by it.</p>` : nothing}
        <div class="row wrap"><button class="button main grow" @click=${sync} aria-disabled=${state.syncing ? 'true' : nothing}>${icon('sync', state.syncing ? 'turn' : '')}Sync now</button>
          <button class="button grow" @click=${() => undoLast(ui)}>${icon('undo')}Void the last entry</button></div>
      </section>
      ${trouble.length ? html`<section aria-labelledby="t-trouble"><h2 id="t-trouble">To look at</h2><ul class="entries">${repeat(trouble, ({ fact }) => fact.id, (one) => row(one, true))}</ul></section>` : nothing}
      ${waiting.length ? html`<section aria-labelledby="t-wait"><h2 id="t-wait">Waiting</h2><ul class="entries">${repeat(waits, ({ key }) => key, (one) => line(one, trouble))}</ul>
        <div class="file-way"><p class="small soft">Is the desk out of reach for good? Save what waits to a file; the desk loads it under Devices, Load entries. Loading twice changes nothing.</p>
          <button class="button" @click=${() => saveEntries(ui)}>${icon('save')}Save entries to a file</button></div></section>` : nothing}
      ${rest.length ? html`<section aria-labelledby="t-rest"><h2 id="t-rest">Settled</h2><ul class="entries">${repeat(rest.slice(0, limit), ({ key }) => key, (one) => line(one, trouble, waiting))}</ul>
        ${rest.length > limit ? html`<button class="button wide" @click=${() => { limit += 100; load(); }}>Show more (${rest.length - limit} left)</button>` : nothing}</section>` : nothing}
      ${entries && !entries.length ? html`<p class="soft">Nothing was entered on this phone yet. Purchases, sales, notes, photos and answers of the checklist will stand here with what became of them.</p>` : nothing}
      <p><a class="button wide" href="/more/ready">${icon('phone')}Ready to leave for the show?</a></p>
    </div>`;
  }

  // What waits or was refused of the same round is told beside, and stands in its own list above.
  function line({ key, rows }, trouble, waiting = []) {
    if (rows.length === 1) return row(rows[0]);
    const of = (some) => some.filter(({ fact }) => fact.kind === 'count' && fact.body.count === key).length;
    const [refused, still] = [of(trouble), of(waiting)];
    const waits = rows[0].state === 'waiting';
    return html`<li class="entry">${icon('scan')}<details class="grow"><summary><b>${roundWords(rows)}</b>
      <span class="small ${waits ? 'warn' : 'good'} state">${icon(waits ? 'wait' : 'fits')}${waits ? 'Wait to be sent' : 'Taken'}<span class="soft figures">${showTime(rows.at(-1).fact.when)}</span></span>
      ${still ? html`<span class="small warn state">${icon('wait')}${count(still, 'more entry waits', 'more entries wait')}</span>` : nothing}
      ${refused ? html`<span class="small bad state">${icon('warn')}${refused} more to look at</span>` : nothing}</summary>
      <ul class="entries">${rows.map((one) => row(one))}</ul></details></li>`;
  }

  function row({ fact, verdict, state: at }, open = false) {
    const coin = titles.get(entryCoin(fact));
    const words = entryWords(fact, { currency: engine.state.currency, reference: engine.reference, typeKey: coin?.type });
    const [sign, tone, said] = fact.by ? ['fits', 'soft', 'Refused, then put right'] : at !== 'waiting' && verdict ? VERDICTS[verdict.verdict] ?? VERDICTS.refused : ['wait', 'warn', 'Waits to be sent'];
    const id = entryCoin(fact);
    return html`<li class="entry" id=${`e-${fact.id}`} tabindex="-1">
      ${icon(words.sign)}<div class="grow">
        <p><b>${words.what}</b>${words.detail ? html` <span class="soft">${words.detail}</span>` : nothing}</p>
        ${id ? html`<p class="small">${coin ? html`<a href=${`/c/${id}`}>${coin.title} ${coin.dateText}</a>` : html`<span class="id soft">${showId(id)}</span>`}</p>` : nothing}
        <p class="small ${tone} state">${icon(sign)}${said}<span class="soft figures">${showTime(fact.when)}</span></p>
        ${verdict?.message && (open || fact.by) ? html`<p class="sentence">${verdict.message}</p>` : nothing}
        ${!open && !fact.by && RECEIPTS.includes(fact.kind) ? html`<p class="small"><a class="button plain left" href=${`/receipt/${fact.id}`}>Receipt</a></p>` : nothing}
        ${open ? mend(ui, fact, verdict, Boolean(coin)) : nothing}
        ${fact.by ? html`<p class="small"><button class="button plain left" @click=${() => look(fact.by)}>See what stands in its place</button></p>` : nothing}
      </div></li>`;
  }
}
