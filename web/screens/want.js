// One want: what would fill the hole, the most to pay, and what is owned already.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder, mark } from '../parts/holder.js';
import { coinRow } from '../parts/coin-row.js';
import { show } from '../parts/money.js';
import { showYears } from '../parts/dates.js';
import { count } from '../parts/words.js';
import { gradeSpan, PRIORITY } from '../parts/wanted.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts } from '../parts/discretion.js';
import { askedByNone, handOver } from '../naming/kept.js';

export function open(ui, { id }) {
  const { engine } = ui;
  let want;
  let owned = { rows: [], total: 0 };
  let rule = null; // {part, said}: the desk's ceiling, for the owner alone

  async function load() {
    want = await engine.card('want', id);
    if (want) owned = await engine.search(want.typeName || '', { denom: want.denom, state: 'in stock', limit: 8 });
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
      <section class="panel money-panel" aria-labelledby="ceiling-title"><header><h2 id="ceiling-title">The most to pay</h2>${want.own ? costButton(ui, 'the ceiling') : nothing}</header><dl class="figures3"><div><dt>Ceiling</dt><dd class="lead">${costsHidden() ? html`<span class="veil" aria-label="hidden">•••</span>` : want.own?.ceiling === null || want.own?.ceiling === undefined ? html`<span class="soft">none set</span>` : html`<span class="money">${show(want.own?.ceiling, engine.state.currency)}</span>`}</dd></div></dl>
        <p class="soft small">All in. Hidden from a seller who looks on, until you press.</p></section>
      ${rule ? rule.part.wantCeiling(ui, rule.said) : nothing}
      ${want.note ? html`<section class="panel"><header><h2>Note</h2></header><p class="note-text">${want.note}</p></section>` : nothing}
      ${type ? html`<section class="panel"><header><h2>What to look for</h2><a class="button plain" href=${`/types/${want.type}`}>The type${icon('on')}</a></header>
        <p class="small soft figures">Struck ${showYears(type.years)}.</p>
        <ol class="seek">${type.looks.map((look) => html`<li><b>${engine.reference.features?.[look.feature]?.name ?? ''}</b> ${look.fits}</li>`)}</ol>
        <p class="caution small">A checklist informs; it does not prove a coin genuine. For anything that matters, an expert decides.</p></section>` : nothing}
      <section class="panel"><header><h2>In stock already</h2></header>${owned.total ? html`<ul class="rows inner">${owned.rows.map((row) => coinRow(row, engine))}</ul>
        ${owned.total > owned.rows.length ? html`<p class="small soft">and ${count(owned.total - owned.rows.length, 'more coin')}</p>` : nothing}` : html`<p class="soft">None of this type.</p>`}</section>
    </div><div class="actions"><div class="line"><button class="button main grow" @click=${buy}>${icon('buy')}Record a purchase for it</button></div></div>`;
  }
}
