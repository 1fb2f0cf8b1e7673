// A type of the catalogue: when and how it was struck, how it is known, what of it is here and what is wanted.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder, mark } from '../parts/holder.js';
import { coinRow } from '../parts/coin-row.js';
import { showYears } from '../parts/dates.js';
import { readOwned } from '../parts/owned.js';
import { count } from '../parts/words.js';
import { serves } from '../parts/wanted.js';
import { familyOf } from '../type/family.js';
import { issues } from '../type/issues.js';
import { looks } from '../type/looks.js';
import { particulars } from '../type/particulars.js';
import { timeline } from '../type/timeline.js';

export function open(ui, { denom, slug }) {
  const { engine } = ui;
  const key = `${denom}/${slug}`;
  let owned = { rows: [], total: 0 };
  let wants = [];

  async function load() {
    const [rows, all] = await Promise.all([readOwned(engine, key), engine.list('want')]);
    owned = { rows, total: rows.length };
    wants = all.filter((want) => serves(want, key) || (!want.type && want.denom === denom));
    ui.update();
  }
  load();
  return { title: 'Type', changed: load, view };

  function view() {
    const { reference } = engine;
    const type = reference.types[key];
    const name = reference.denominations.find((one) => one.key === denom)?.name ?? 'Types';
    const bar = head(ui, { title: name, back: `/types/${denom}` });
    if (!type) return html`${bar}<div class="body"><p>The catalogue has no such type.</p></div>`;
    const family = familyOf(denom, reference);
    const held = owned.total ? { [key]: owned.rows.map((row) => row.year) } : {};
    return html`${bar}<div class="body gap type">
      <div class="coin-top">${holder({ denom, top: mark(denom, reference), year: String(type.years[0]), size: 'medium', open: !owned.total })}<div class="who">
        <h2 class="name">${type.name}</h2>
        <p class="date serif figures">${showYears(type.years)}</p>
        ${type.single ? html`<p class="small"><b>Struck in one year only.</b></p>` : nothing}
        ${type.proofOnly.length ? html`<p class="small soft figures">Proofs only: ${showYears(type.proofOnly)}.</p>` : nothing}
        <p class="small">${owned.total ? html`<b class="good">${count(owned.total, 'coin')} in your stock</b>` : html`<span class="soft">None in your stock</span>`}${wants.length ? html`, ${count(wants.length, 'want')}` : nothing}.</p></div></div>
      ${timeline(family, { held, link: (of) => `/types/${of}`, now: key })}
      <section class="panel"><header><h2>What it shows</h2></header>
        <p><b>Obverse.</b> ${type.obverse}</p><p><b>Reverse.</b> ${type.reverse}</p></section>
      ${looks(type, reference)}
      <section class="panel"><header><h2>By law and measure</h2></header>${particulars(type, reference)}</section>
      ${type.subtypes.length ? html`<section class="panel"><header><h2>Inside the type</h2></header><dl class="inside">${type.subtypes.map((one) => html`<div>
        <dt><b>${one.name}</b> <span class="soft figures">${showYears(one.years)}</span></dt><dd>${one.marks}${one.note ? html` <span class="soft">${one.note}</span>` : nothing}</dd></div>`)}</dl></section>` : nothing}
      ${type.questions.length ? html`<section class="panel"><header><h2>Not settled</h2></header><dl class="inside">${type.questions.map((one) => html`<div>
        <dt><b>${one.ask}</b></dt><dd><ul class="held-views">${one.held.map((view) => html`<li>${view}.</li>`)}</ul></dd></div>`)}</dl></section>` : nothing}
      ${issues(type, new Set(owned.rows.map((row) => `${row.year}${row.mint ?? ''}`)))}
      ${wants.length ? html`<section class="panel"><header><h2>Wants that it serves</h2></header><ul class="menu inner">${wants.map((want) => html`<li><a href=${`/wants/${want.id}`}><span><b>${want.title}</b>
        <small class="figures">${want.years || 'any date'}</small></span>${icon('on')}</a></li>`)}</ul></section>` : nothing}
      ${owned.total ? html`<section class="panel"><header><h2>In your stock</h2></header><ul class="rows inner">${owned.rows.slice(0, 20).map((row) => coinRow(row, engine))}</ul>
        ${owned.total > 20 ? html`<p class="small soft">and ${count(owned.total - 20, 'more coin')}</p>` : nothing}</section>` : nothing}
      <p class="caution small">A catalogue informs; it does not prove a coin genuine. For anything that matters, an expert decides.</p>
    </div>`;
  }
}
