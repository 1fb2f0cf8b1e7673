// Our coins with somebody else, on memo or on consignment: what we are to have for each, and until when.
import { html } from '../parts/html.js';
import { amount, cents, date, segments, typed } from '../parts/field.js';
import { filled, moveForm } from '../parts/move-form.js';
import { CAN } from '../parts/coin-doings.js';
import { show } from '../parts/money.js';
import { nameField } from '../parts/party.js';
import { count, showId } from '../parts/words.js';

export const KINDS = [['memo', 'Memo'], ['consignment', 'Consignment']];

/** The fields of such an agreement that do not hang on a coin. */
export const agreement = (form) => html`
  <div class="field"><span class="label">Agreement</span>${segments('kind', form.values.kind, KINDS, (value) => form.set('kind', value || 'memo'), 'Agreement')}</div>
  ${nameField(form, 'with', 'With', '')}${date(form, 'due', 'Back by', { need: false })}`;

/** Those of the entry; adds to `wrong` what does not work. */
export function agreed(form, wrong) {
  const { kind, due, date: day } = form.values;
  if (!form.values.with.trim()) wrong.with = 'Say with whom, so that the coin is found again.';
  if (due && day && due < day) wrong.due = 'That is before the date of the agreement.';
  return { kind, ...filled(form.values, ['with']), ...(due ? { due } : {}) };
}

export function open(ui, { id }) {
  const net = (card) => `net-${card.id}`;
  return moveForm(ui, id, {
    kind: 'memo', owners: true, title: 'Out on memo', button: 'Record that it is out', sign: 'show', joins: 'Another coin goes along', fits: CAN.memo,
    values: { kind: 'memo', with: '', due: '' },
    ids: (body) => body.coins.map((row) => row.coin),
    said: ({ coins, kind, due = '', ...body }) => ({
      kind, due, with: body.with ?? '', ...Object.fromEntries(coins.map((row) => [`net-${row.coin}`, typed(ui, row.net)])),
    }),
    fields: (form, cards) => html`${agreement(form)}
      ${cards.map((card) => amount(ui, form, net(card), cards.length > 1 ? `Net for ${showId(card.id)}` : 'Net to you', { help: hint(card) }))}`,
    read(form, cards, wrong) {
      const coins = cards.map((card) => {
        const read = cents(ui, form, net(card));
        if (read === null) wrong[net(card)] = 'Give what you are to have when it is sold.';
        if (Number.isNaN(read)) wrong[net(card)] = 'That is not an amount of money.';
        return { coin: card.id, net: read };
      });
      return { way: 'out', coins, ...agreed(form, wrong) };
    },
    done: (form, cards) => `${cards.length === 1 ? 'It is' : `${count(cards.length, 'coin')} are`} on ${form.values.kind} with ${form.values.with.trim()}.`,
  });

  function hint(card) {
    return `What you are to have when it is sold.${card.ask ? ` Asking ${show(card.ask, ui.engine.state.currency)}.` : ''}`;
  }
}
