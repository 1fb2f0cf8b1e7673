// What the coin is offered at, and for the owner the least to take.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { amount, cents, makeForm, submit, typed } from '../parts/field.js';
import { inPlace, leaveOff, mended, whyRefused } from '../parts/mending.js';
import { slip } from '../parts/slip.js';

export function open(ui, { id }) {
  const { engine } = ui;
  const form = makeForm(ui, { ask: '', floor: '' });
  let card;
  let refused = null;

  async function load() {
    [card, refused] = await Promise.all([engine.card('coin', id), mended(ui)]);
    const { ask, floor } = { ask: card?.ask, floor: card?.own?.floor, ...refused?.fact.body.set };
    Object.assign(form.values, { ask: typed(ui, ask), floor: typed(ui, floor) });
    ui.update();
  }
  load();
  return { title: 'Price', form: true, view, close: leaveOff };

  async function record(event) {
    event.preventDefault();
    const base = {};
    const set = {};
    const wrong = {};
    const compare = (name, before) => {
      const now = cents(ui, form, name);
      if (Number.isNaN(now)) wrong[name] = 'That is not an amount of money.';
      else if (now !== (before ?? null)) [base[name], set[name]] = [before ?? null, now];
    };
    compare('ask', card.ask);
    if (card.own) compare('floor', card.own.floor);
    if (Object.keys(wrong).length) { form.fail(wrong); return; }
    await form.run(async () => {
      if (Object.keys(set).length) await inPlace(ui, refused, await engine.record('coin.edit', { coin: card.id, base, set }));
      ui.go(`/c/${card.id}`, { replace: true });
      ui.say(Object.keys(set).length ? 'The price is changed.' : 'Nothing was changed.');
    });
  }

  function view() {
    const bar = head(ui, { title: 'Price', back: `/c/${id}`, close: true });
    if (!card) return bar;
    const [ask, floor] = ['ask', 'floor'].map((name) => cents(ui, form, name));
    return html`<form class="fill" @submit=${record} novalidate>${bar}<div class="body gap">${whyRefused(refused)}${slip(ui, card)}
      ${amount(ui, form, 'ask', 'Asking price', { help: 'Empty: no price is set.' })}
      ${card.own ? amount(ui, form, 'floor', 'Floor', { help: ask !== null && floor !== null && floor > ask ? 'The floor is above the asking price.' : 'The least to take.' }) : nothing}
    </div>${submit(form, 'Record the price', 'sell')}</form>`;
  }
}
