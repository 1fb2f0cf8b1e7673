// A plan for a show's budget, with no network: which wants or slots, in which grade and of which date, so that the money does most.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { holder } from '../parts/holder.js';
import { costButton } from '../parts/coin-money.js';
import { costsHidden, hideCosts, showCosts } from '../parts/discretion.js';
import { showDate, today } from '../parts/dates.js';
import { amount, cents, choice, makeForm, typed } from '../parts/field.js';
import { show as money } from '../parts/money.js';
import { planView, veiled } from '../parts/plan-view.js';
import { chosenShow } from '../parts/show-field.js';
import { count } from '../parts/words.js';
import * as floor from '../engine/at-show.js';
import { paced } from '../engine/idle.js';
import { lines, priced } from '../engine/sought.js';
import { tag } from '../engine/worth.js';
import { changes, makePlanner } from '../plan/planner.js';

const MORE = 10_000; // one more $100, in cents
const SHOWS = ['budget', 'second', 'third', 'fourth'];
const DAY = 86_400_000;
let kept = null; // what was typed, while the app is open: a look at a want does not lose it

export function open(ui, { goal = '' }) {
  const { engine } = ui;
  const { currency, role } = engine.state;
  const form = makeForm(ui, { upgrades: false, budget: '', second: '', third: '', fourth: '', ...kept, goal }, heard);
  const drawn = planView(ui, where);
  let goals = [];
  let at = null; // the show whose budget is spent, {name, left}
  let found; // what is sought; undefined: being read
  let made = null; // the day of the desk's prices
  let planner = null;
  let of = ''; // what the planner was made of
  let said = null;
  let turn = 0;
  let typing = false; // the fields of money are in sight
  if (role === 'owner') load();
  return { title: 'Plan for a budget', changed: load, view, close };

  function close() {
    turn++;
    hideCosts();
  }

  function planned() {
    return at ? typed(ui, Math.max(at.left, 0)) : '';
  }

  function heard() {
    kept = { ...form.values };
    if (kept.budget === planned()) delete kept.budget; // it follows what is left at the show
    if (form.values.goal !== goal) {
      ui.go(form.values.goal ? `/plan/${form.values.goal}` : '/plan', { replace: true });
      return;
    }
    if (typing) showCosts(ui);
    look(++turn);
  }

  async function load() {
    if (role !== 'owner') return;
    const mine = ++turn;
    const [sets, shows] = await Promise.all([engine.list('goal'), engine.list('show')]);
    const here = budgeted(shows);
    const sums = here && await floor.money(here);
    goals = sets.sort((a, b) => a.name.localeCompare(b.name)); // also where somebody typed meanwhile
    at = sums && sums.left !== null ? { name: here.name, left: sums.left } : null;
    if (kept?.budget === undefined) form.values.budget = planned();
    if (mine === turn) await look(mine);
    else ui.update();
  }

  // The show one is at, else the next.
  function budgeted(shows) {
    const coming = shows.filter((one) => (one.ends || one.starts || '') >= today());
    return chosenShow(coming) ?? coming.sort((a, b) => (a.starts ?? '').localeCompare(b.starts ?? '') || (a.id < b.id ? -1 : 1))[0] ?? null;
  }

  async function look(mine) {
    const [read, held] = await Promise.all([lines(goal, form.values.upgrades), tag()]);
    const mark = JSON.stringify([read?.lines, held]);
    if (mine !== turn) return;
    if (read && mark !== of) {
      const pause = paced();
      const { sought, rungs, ...rest } = await priced(read.lines, pause);
      const ready = await makePlanner(sought, rungs, pause);
      if (mine !== turn) return;
      [made, planner, of] = [rest.made, ready, mark];
    }
    found = read;
    await answer(mine);
  }

  async function answer(mine) {
    const budgets = SHOWS.map((name) => cents(ui, form, name));
    form.wrong = Object.fromEntries(SHOWS.filter((_, n) => Number.isNaN(budgets[n])).map((name) => [name, 'That is not an amount of money.']));
    while (budgets.length && budgets.at(-1) === null) budgets.pop();
    let now = null;
    if (found && budgets.length && !Object.keys(form.wrong).length) {
      const shows = budgets.map((one) => one ?? 0);
      const total = shows.reduce((sum, one) => sum + one, 0);
      const [plan, after] = [planner.plan(total), planner.plan(total + MORE)];
      now = { plan, after, changed: changes(plan, after), extra: MORE, next: planner.steps().find(([needs]) => needs > total)?.[0] ?? null,
        shows: shows.length > 1 ? await planner.overShows(shows) : [] };
    }
    if (mine !== turn) return;
    said = now;
    ui.update();
  }

  // A line leads to its want; a slot that is on no want list to its board.
  function where(sought) {
    const { want } = found.lines.find((line) => line.key === sought.key) ?? {};
    return want ? `/wants/${want.id}` : goal ? `/sets/${goal}` : '/wants';
  }

  function view() {
    const bar = head(ui, { title: 'Plan for a budget', back: goal ? `/sets/${goal}` : '/wants' });
    if (role !== 'owner') return html`${bar}<div class="body"><div class="empty">${holder({ open: true, size: 'medium' })}<h2>Plans stay with the owner</h2><p>They rest on ceilings and on what coins are worth, which a helper’s phone does not hold.</p></div></div>`;
    return html`${bar}<div class="body gap plan">${asked()}${found === undefined ? nothing : found === null ? html`<p>This set is no longer in the book.</p>` : answered()}</div>`;
  }

  function asked() {
    const hidden = costsHidden() && form.values.budget.trim() !== '';
    typing = !hidden;
    return html`${goals.length ? choice(form, 'goal', 'What for', [['', 'The want list'], ...goals.map((one) => [one.id, one.name || 'A set'])]) : nothing}
      ${goal ? html`<label class="tick"><input type="checkbox" .checked=${form.values.upgrades} @change=${(event) => form.set('upgrades', event.target.checked)}><span>Better coins for filled slots, too</span></label>` : nothing}
      <section class="panel" aria-labelledby="money-title"><header><h2 id="money-title">Money</h2>${form.values.budget.trim() ? costButton(ui, 'the money') : nothing}</header>
        ${hidden ? html`<dl class="figures3"><div><dt>Budget</dt><dd class="lead">${veiled(ui, 0)}</dd></div></dl><p class="soft small">Prices and budget are hidden from a seller who looks on, until you press.</p>` : fields()}</section>`;
  }

  function fields() {
    const several = SHOWS.slice(1).some((name) => form.values[name]);
    return html`${amount(ui, form, 'budget', 'Budget', { help: !at ? 'For the next show.' : at.left < 0 ? `Overspent at ${at.name} by ${money(-at.left, currency)}.` : `${money(at.left, currency)} left at ${at.name}.` })}
      ${at && at.left >= 0 && cents(ui, form, 'budget') !== at.left ? html`<button type="button" class="button plain left" @click=${() => form.set('budget', typed(ui, at.left))}>${icon('undo')}Use what is left at the show</button>` : nothing}
      <details class="more plan-out" ?open=${several}><summary>${icon('down')}Over several shows</summary><div class="gap">
        ${amount(ui, form, 'second', 'Second show')}${amount(ui, form, 'third', 'Third show')}${amount(ui, form, 'fourth', 'Fourth show', { help: 'What one show leaves is carried on to the next.' })}</div></details>`;
  }

  function answered() {
    if (!found.lines.length) return html`<p>${found.bought ? 'What was open is bought on this phone; the desk has not answered yet.' : 'Nothing is open here, so there is nothing to plan.'}</p>`;
    return html`${age()}
      ${said && !said.plan.picks.length && !said.plan.left.length ? html`<p>Nothing that is sought has a price that can be used. Record past sales at the desk, or give the wants a ceiling.</p>` : nothing}
      ${said ? drawn(said) : html`<p class="soft">${Object.keys(form.wrong).length ? 'Put the amounts right' : 'Give a budget'}, and the plan is made at once.</p>`}
      <p class="small soft">A filled slot or want counts 100 points, and up to 50 more for its grade within the window; an upgrade counts only
        what the grade gains. High priority counts four times, usual twice, low once. The plan has the most points that the money buys, and of
        equal plans the cheapest. A price is the middle of the estimate from recorded sales, or the want’s ceiling where there is none; an asking
        price may differ. What old coins bring is not counted.</p>`;
  }

  // On which day the prices rest, and what they cannot know.
  function age() {
    const days = made ? Math.max(0, Math.round((Date.parse(today()) - Date.parse(made)) / DAY)) : null;
    const words = [
      days === null ? 'No prices on this phone yet; they come with the next sync. Until then a want counts at its ceiling.'
        : `Prices as the desk worked them out on ${showDate(made)}${days > 1 ? `, ${count(days, 'day')} ago` : ''}.`,
      found.fresh ? `${count(found.fresh, 'want')} changed on this phone ${found.fresh === 1 ? 'has' : 'have'} prices as far as the last sync told.` : '',
      found.bought ? `${count(found.bought, 'slot')} bought for on this phone ${found.bought === 1 ? 'is' : 'are'} left out.` : '',
    ].filter(Boolean).join(' ');
    return days === null || days > 1 ? html`<p class="callout warn">${icon('warn')}<span>${words}</span></p>` : html`<p class="small soft">${words}</p>`;
  }
}
