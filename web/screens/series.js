// One denomination as a timeline of its types.
import { html } from '../parts/html.js';
import { head } from '../parts/head.js';
import { familyOf } from '../type/family.js';
import { timeline } from '../type/timeline.js';
import { count } from '../parts/words.js';

export function open(ui, { denom }) {
  const { engine } = ui;
  let held = {};

  async function load() {
    const { rows } = await engine.search('', { denom, state: 'in stock', limit: 5000 });
    held = {};
    for (const row of rows) if (row.type) (held[row.type] ??= []).push(row.year);
    ui.update();
  }
  load();
  return { title: 'Series', changed: load, view };

  function view() {
    const of = engine.reference.denominations.find((one) => one.key === denom);
    const types = familyOf(denom, engine.reference);
    const bar = head(ui, { title: of?.name ?? 'Series', back: '/types' });
    if (!types.length) return html`${bar}<div class="body"><p>The catalogue has no types of this denomination.</p></div>`;
    const owned = types.filter((type) => held[type.key]).length;
    return html`${bar}<div class="body gap">
      <p class="soft">${count(types.length, 'type')}, ${owned === 0 ? 'none' : owned === types.length ? 'all' : owned} of them in your stock.</p>
      ${timeline(types, { held, link: (key) => `/types/${key}` })}
    </div>`;
  }
}
