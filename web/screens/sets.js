// The sets of the book, and how full they are.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holes } from '../parts/board.js';
import { holder } from '../parts/holder.js';
import { allRefilled } from '../engine/sets-here.js';

export function open(ui) {
  let goals = null;

  async function load() {
    goals = (await allRefilled()).sort((a, b) => a.name.localeCompare(b.name));
    ui.update();
  }
  load();
  return { title: 'Sets', changed: load, view };

  function view() {
    const bar = head(ui, { title: 'Sets', back: '/wants' });
    if (!goals) return bar;
    return html`${bar}<div class="body gap">
      ${goals.length ? html`<ul class="menu sets">${repeat(goals, (one) => one.id, (one) => html`<li><a href=${`/sets/${one.id}`}><span><b>${one.name || 'A set'}</b>
        ${holes(one)}<small class="figures">${one.filled} of ${one.slots.length} filled${one.spares ? `, ${one.spares} spare` : nothing}</small></span>${icon('on')}</a></li>`)}</ul>`
        : html`<div class="empty">${holder({ open: true, size: 'medium' })}<h2>No sets yet</h2><p>Make one at the desk from a series, a denomination or a century; its board comes here with the next sync.</p></div>`}
    </div>`;
  }
}
