// The catalogue: every denomination, country by country.
import { html } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder, mark } from '../parts/holder.js';
import { askedByNone } from '../naming/kept.js';
import { count } from '../parts/words.js';

const COUNTRIES = { US: 'United States', GB: 'Great Britain', CA: 'Canada' };

export function open(ui) {
  const { engine } = ui;
  return { title: 'Types', view };

  function view() {
    const types = Object.values(engine.reference.types);
    const groups = Map.groupBy(engine.reference.denominations.filter((one) => types.some((type) => type.denom === one.key)), (one) => one.country);
    return html`${head(ui, { title: 'Types', back: '/more' })}<div class="body gap">
      <a class="button main wide" href="/name" @click=${askedByNone}>${icon('glass')}Name a coin in the hand</a>
      ${[...groups].map(([country, denominations]) => html`<section class="stack"><h2>${COUNTRIES[country] ?? country}</h2>
        <ul class="menu denominations">${denominations.map((one) => row(one, types.filter((type) => type.denom === one.key)))}</ul></section>`)}
    </div>`;
  }

  function row(one, types) {
    const years = types.flatMap((type) => [type.years[0], type.years.at(-1)]);
    return html`<li><a href=${`/types/${one.key}`}>${holder({ denom: one.key, top: mark(one.key, engine.reference) })}
      <span><b>${one.name}</b><small class="figures">${Math.min(...years)}–${Math.max(...years)}</small></span>
      <small class="soft">${count(types.length, 'type')}</small>${icon('on')}</a></li>`;
  }
}
