// The want list: what is sought, how much, how badly.
import { html, nothing, repeat } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder, mark } from '../parts/holder.js';
import { show } from '../parts/money.js';
import { count } from '../parts/words.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden } from '../parts/discretion.js';
import { gradeSpan, PRIORITY } from '../parts/wanted.js';

const ORDER = { high: 0, usual: 1, low: 2 };

export function open(ui) {
  const { engine } = ui;
  let wants = null;

  async function load() {
    const found = await engine.list('want');
    const order = new Map((engine.reference?.denominations ?? []).map((one) => [one.key, one.order]));
    wants = found.toSorted((a, b) => (ORDER[a.priority] ?? 1) - (ORDER[b.priority] ?? 1) || (order.get(a.denom) ?? 999) - (order.get(b.denom) ?? 999)
      || (a.years ?? '').localeCompare(b.years ?? '') || a.title.localeCompare(b.title));
    ui.update();
  }
  load();
  return { title: 'Wants', changed: load, view, beside };

  function view() {
    return html`${head(ui, { title: 'Wants' })}<div class="body rows-body">
      ${wants === null ? nothing : !wants.length ? html`<div class="empty">${holder({ open: true, size: 'medium' })}
          <h2>${engine.state.role === 'owner' ? 'Nothing is wanted yet' : 'Wants stay with the owner'}</h2>
          <p>${engine.state.role === 'owner' ? 'Put lines on the want list at the desk; they come here with the next sync.' : 'A helper’s phone holds the stock, not the want list.'}</p></div>`
        : html`<p class="found soft small">${count(wants.length, 'want')}, the most pressing first</p>${engine.state.role === 'owner' ? costButton(ui, 'the ceilings') : nothing}
          <ul class="rows">${repeat(wants, (want) => want.id, row)}</ul>`}
    </div>`;
  }

  function row(want) {
    const [sign, words, tone] = PRIORITY[want.priority] ?? PRIORITY.usual;
    return html`<li><a class="coin-row" href=${`/wants/${want.id}`} aria-current=${location.pathname === `/wants/${want.id}` ? 'true' : nothing}>
      ${holder({ open: true, top: mark(want.denom, engine.reference) })}
      <span class="what"><span class="title serif">${want.title}</span>
        <span class="line">${want.years ? html`<b class="figures">${want.years}</b>` : html`<b>any date</b>`}<span class="figures">${gradeSpan(want)}</span></span>
        ${words || want.waiting?.length ? html`<span class="line small">${words ? html`<span class="state ${tone}">${icon(sign)}${words}</span>` : nothing}${want.waiting?.length ? html`<span class="state warn">${icon('entries')}waits to be sent</span>` : nothing}</span>` : nothing}</span>
      ${costsHidden() ? nothing : want.own?.ceiling === null || want.own?.ceiling === undefined ? html`<span class="ask soft small">no ceiling</span>` : html`<span class="ask money"><small class="soft">up to</small> ${show(want.own?.ceiling, engine.state.currency, { short: true })}</span>`}
    </a></li>`;
  }

  function beside() {
    return html`<div class="empty beside">${holder({ open: true, size: 'medium' })}<h2>Choose a want</h2></div>`;
  }
}
