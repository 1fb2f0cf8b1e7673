// A plan for a budget as it is read at a table: what to buy, what one more step of money buys, what is left out and why.
import { html, nothing, repeat } from './html.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { show } from './money.js';
import { showDate } from './dates.js';
import { costsHidden } from './discretion.js';
import { PRIORITY } from './wanted.js';
import { count } from './words.js';

const veil = html`<span class="veil" aria-label="hidden">•••</span>`;

/** An amount that a seller must not read. */
export const veiled = (ui, cents, how) => (costsHidden() ? veil : html`<span class="money">${show(cents, ui.engine.state.currency, how)}</span>`);

/** `href(sought)` is where a line leads. */
export function planView(ui, href) {
  const { engine } = ui;
  const say = (cents) => veiled(ui, cents, { short: true });
  const grade = (option) => option.grade || 'any grade';

  // What of a want is to be bought: the type where its title does not say it, and which date. By a ceiling, whatever it asks for.
  function what(sought, option) {
    if (!option.type) return nothing;
    const name = engine.reference.types[option.type]?.name ?? '';
    const type = name && !sought.title.includes(name) ? name : '';
    if (option.issue) return html`<b class="figures">${option.issue}</b>${type ? html`<span>${type}</span>` : nothing}`;
    return type ? html`<span>${type}, a usual date</span>` : html`<b>a usual date</b>`;
  }

  const rests = (option) => (option.basis === 'ceiling' ? 'Your ceiling; no recorded sale says more' : `${count(option.sales, 'sale')}, the last ${showDate(option.last)}`);

  function row({ sought, option, points }) {
    const [sign, words, tone] = PRIORITY[sought.priority] ?? PRIORITY.usual;
    const denom = (option.type || sought.slot.types?.[0] || '').split('/')[0];
    return html`<li><a class="coin-row" href=${href(sought)}>
      ${holder({ open: true, top: mark(denom, engine.reference) })}
      <span class="what"><span class="title serif">${sought.title}</span>
        <span class="line">${what(sought, option)}<span class="figures">${grade(option)}</span></span>
        ${words || sought.has ? html`<span class="line small">${words ? html`<span class="state ${tone}">${icon(sign)}${words}</span>` : nothing}${sought.has ? html`<span>betters the ${sought.has}</span>` : nothing}</span>` : nothing}
        <span class="line small soft"><span>${rests(option)}</span><span class="nowrap">${count(points, 'point')}</span></span></span>
      <span class="ask">${say(option.cents)}</span>
    </a></li>`;
  }

  const rows = (picks) => html`<ul class="rows plan-rows">${repeat(picks, (one) => one.sought.key, row)}</ul>`;

  function sums({ picks, cents, points, budget }) {
    return html`<dl class="ledger plan-sum"><div class="total"><dt>${count(picks.length, 'coin')}, ${count(points, 'point')}</dt><dd>${veiled(ui, cents)}</dd></div>
      <div><dt>Left of ${veiled(ui, budget, { short: true })}</dt><dd>${veiled(ui, budget - cents)}</dd></div></dl>`;
  }

  function buy({ plan, shows, next }) {
    if (shows.length > 1) {
      return html`<section><h2>Show by show</h2><p class="small soft">All shows together buy the best plan for all the money. Each in turn buys as much of it as its money can pay.</p></section>
        ${shows.map((one, at) => html`<section aria-labelledby=${`show-${at}`}><h3 id=${`show-${at}`} class="plan-show">Show ${at + 1}<small>${say(one.budget)} in hand</small></h3>
          ${one.picks.length ? html`${rows(one.picks)}${sums(one)}` : html`<p class="soft">Nothing of the plan can be paid yet.</p>`}</section>`)}`;
    }
    if (plan.picks.length) return html`<section aria-labelledby="buy-title"><h2 id="buy-title">What to buy</h2>${rows(plan.picks)}${sums(plan)}</section>`;
    return plan.left.length ? html`<p>This budget buys nothing of it.${next === null ? nothing : html` The first thing takes ${say(next)}.`}</p>` : nothing;
  }

  function more({ plan, after, changed, next, extra }) {
    if (!plan.picks.length && !plan.left.length) return nothing;
    const dollars = show(extra, engine.state.currency, { short: true });
    const line = ({ sought, before, after: now }) => item(sought, now ? html`${grade(now)} for ${say(now.cents)}${before ? html` in place of ${grade(before)} for ${say(before.cents)}` : nothing}` : 'Not bought');
    return html`<section class="panel" id="more-money" aria-labelledby="more-title"><header><h2 id="more-title">What one more ${dollars} buys</h2></header>
      ${changed.length ? html`<ul class="menu">${changed.map(line)}</ul><p class="soft">${count(after.points - plan.points, 'point')} more.</p>`
        : next === null ? html`<p>Nothing: this budget buys everything that has a price.</p>`
        : html`<p>Nothing. The next thing to be had takes a budget of ${say(next)}.</p>`}</section>`;
  }

  const item = (sought, words) => html`<li><a href=${href(sought)}><span>${sought.title}<small>${words}</small></span>${icon('on')}</a></li>`;

  function out(title, words, list, about = () => nothing) {
    return list.length ? html`<details class="more plan-out"><summary>${icon('down')}${title} (${list.length})</summary>${words ? html`<p class="small soft">${words}</p>` : nothing}
      <ul class="menu">${list.map((one) => item(one, about(one)))}</ul></details>` : nothing;
  }

  /** `said`: {plan, after: the plan for `extra` cents more, changed, next: cents or null, shows: plans, extra}. */
  return (said) => html`${buy(said)}${more(said)}
    ${out('Left for later', '', said.plan.left)}
    ${out('Above your ceiling', '', said.plan.dear, (one) => html`Ceiling ${say(one.ceiling)}; from ${say(Math.min(...one.options.map((each) => each.cents)))}`)}
    ${out('No evidence', 'No recorded sale speaks of these, and they have no ceiling; so they are in no plan.', said.plan.unpriced)}`;
}
