// A coin, or several, sent away: elsewhere, and still ours.
import { html } from '../parts/html.js';
import { segments } from '../parts/field.js';
import { filled, moveForm } from '../parts/move-form.js';
import { CAN } from '../parts/coin-doings.js';
import { nameField } from '../parts/party.js';
import { count } from '../parts/words.js';

export const WHY = [['grading', 'Grading'], ['conservation', 'Conservation'], ['display', 'Display'], ['other', 'Other']];

export function open(ui, { id }) {
  return moveForm(ui, id, {
    kind: 'away', title: 'Send it away', button: 'Record that it is away', sign: 'out', joins: 'Another coin goes along', fits: CAN.away,
    values: { why: 'grading', with: '' },
    ids: (body) => body.coins,
    said: (body) => ({ why: body.why, with: body.with ?? '' }),
    fields: (form) => html`
      <div class="field"><span class="label">Why</span>${segments('why', form.values.why, WHY, (value) => form.set('why', value || 'other'), 'Why')}</div>
      ${nameField(form, 'with', 'With', 'Who has it; may stay empty.')}`,
    read: (form, cards) => ({ coins: cards.map((card) => card.id), why: form.values.why, ...filled(form.values, ['with']) }),
    done: (form, cards) => `${cards.length === 1 ? 'It is' : `${count(cards.length, 'coin')} are`} ${form.values.why === 'grading' ? 'at grading' : 'away'}.`,
  });
}
