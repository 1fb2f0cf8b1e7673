// One want: what would fill the hole, the most to pay, and what is owned already.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder, mark } from '../parts/holder.js';
import { show } from '../parts/money.js';
import { showYears } from '../parts/dates.js';
import { gradeSpan, PRIORITY } from '../parts/wanted.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { askDrop } from '../parts/list-form.js';
import { makeOwned } from '../parts/owned.js';
import { readSeen, seenRow } from '../parts/seen.js';
import { options } from '../parts/options.js';
import { seenFor } from '../parts/want-order.js';
import { askedByNone, handOver, handTo } from '../naming/kept.js';

export function open(ui, { id }) {
  const { engine } = ui;
  let want;
  const owned = makeOwned(ui);
  let book = null;
  let goal = null; // the set that it is for
  let rule = null; // {part, said}: the desk's ceiling, for the owner alone

  async function load() {
    want = await engine.card('want', id);
    if (want) [book, goal] = await Promise.all([readSeen(engine), want.goal ? engine.card('goal', want.goal) : null]);
    ui.update();
    if (!want?.own) return;
    const part = await import('../parts/coin-worth.js');
    rule = { part, said: await part.readCeiling(want) };
    ui.update();
  }
  load();
  return { title: 'Want', changed: load, view, close: hideCosts };

  function buy() {
    const single = /^\d{3,4}$/.test(want.years ?? '') ? want.years : '';
    askedByNone();
    ui.go(handOver({ denom: want.denom, type: want.type, title: want.type ? '' : want.title, year: single }, want.id));
  }

  function note() {
    const single = /^\d{3,4}$/.test(want.years ?? '') ? want.years : '';
    ui.go(handTo('/seen/new', { want: want.id, denom: want.denom, type: want.type, title: want.type ? '' : want.title, year: single }));
  }

  function more() {
    ui.sheet('More for this want', () => options([['edit', 'Change it', 'note'], ['drop', 'Take it off the list', 'close']], null, (what) => {
      ui.closeSheet();
      if (what === 'edit') ui.go(`/wants/${id}/edit`);
      else askDrop(ui, 'want', id, { title: 'Take it off the list?', words: 'It cannot be brought back but by entering it again.', button: 'Take it off', list: '/wants', done: 'The want is off the list.' });
    }));
  }

  function seenPart() {
    const found = seenFor(want, book?.sightings ?? []);
    return html`<section class="panel"><header><h2>Seen</h2></header>${found.length ? html`<ul class="rows inner">${found.slice(0, 12).map((one) => seenRow(ui, one, book))}</ul>` : html`<p class="soft">At no table yet.</p>`}</section>`;
  }

  function view() {
    const bar = head(ui, { title: 'Want', back: '/wants' });
    if (want === undefined) return bar;
    if (want === null) return html`${bar}<div class="body"><p>This want is no longer on the list.</p><a class="button" href="/wants">To the want list</a></div>`;
    const type = engine.reference?.types?.[want.type];
    const [sign, words, tone] = PRIORITY[want.priority] ?? PRIORITY.usual;
    return html`${bar}<div class="body coin">
      <div class="coin-top">${holder({ open: true, size: 'medium', top: mark(want.denom, engine.reference) })}<div class="who"><h2 class="name">${want.title}</h2>
        <p class="date serif figures">${want.years || 'Any date'}</p><p class="grade"><b>${gradeSpan(want)}</b></p>
        ${words ? html`<p class="state ${tone}">${icon(sign)}${words}</p>` : nothing}</div></div>
      ${want.waiting?.length ? html`<p class="small warn row">${icon('entries')}waits to be sent</p>` : nothing}
      ${want.types?.length > 1 ? html`<section class="panel"><header><h2>Any of these serves</h2></header><ul class="menu inner">${want.types.map((key) => html`<li><a href=${`/types/${key}`}><span>${engine.reference.types[key]?.title ?? key}</span>${icon('on')}</a></li>`)}</ul></section>` : nothing}
      ${goal ? html`<ul class="menu"><li><a href=${`/sets/${goal.id}`}>${icon('stock')}<span><b>${goal.name || 'A set'}</b><small>For the slot ${goal.slots.find((one) => one.key === want.slot)?.title ?? want.slot}</small></span>${icon('on')}</a></li></ul>` : nothing}
      <section class="panel money-panel" aria-labelledby="ceiling-title"><header><h2 id="ceiling-title">The most to pay</h2>${want.own ? costButton(ui, 'the ceiling') : nothing}</header><dl class="figures3"><div><dt>Ceiling</dt><dd class="lead">${costsHidden() ? html`<span class="veil" aria-label="hidden">•••</span>` : want.own?.ceiling === null || want.own?.ceiling === undefined ? html`<span class="soft">none set</span>` : html`<span class="money">${show(want.own?.ceiling, engine.state.currency)}</span>`}</dd></div></dl>
        <p class="soft small">All in. Hidden from a seller who looks on, until you press.</p></section>
      ${seenPart()}
      ${want.type ? html`<section class="panel"><header><h2>What you have</h2></header>${owned.view({ type: want.type, year: /^\d{4}$/.test(want.years) ? want.years : '', grade: want.grade_from })}</section>` : nothing}
      ${rule ? rule.part.wantCeiling(ui, rule.said) : nothing}
      ${want.note ? html`<section class="panel"><header><h2>Note</h2></header><p class="note-text">${want.note}</p></section>` : nothing}
      ${type ? html`<section class="panel"><header><h2>What to look for</h2><a class="button plain" href=${`/types/${want.type}`}>The type${icon('on')}</a></header>
        <p class="small soft figures">Struck ${showYears(type.years)}.</p>
        <ol class="seek">${type.looks.map((look) => html`<li><b>${engine.reference.features?.[look.feature]?.name ?? ''}</b> ${look.fits}</li>`)}</ol>
        <p class="caution small">A checklist informs; it does not prove a coin genuine. For anything that matters, an expert decides.</p></section>` : nothing}
    </div><div class="actions"><div class="line"><button class="button grow" @click=${note}>${icon('eye')}Seen here</button><button class="button main grow" @click=${buy}>${icon('buy')}Buy it</button>
      <button class="button" aria-haspopup="dialog" aria-label="More" @click=${more}>${icon('more')}</button></div></div>`;
  }
}
