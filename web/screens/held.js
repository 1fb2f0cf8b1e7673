// Held otherwise from now on: taken out of stock for oneself, kept as an investment, or put into stock.
import { html } from '../parts/html.js';
import { segments } from '../parts/field.js';
import { moveForm } from '../parts/move-form.js';
import { CAN } from '../parts/coin-doings.js';
import { count } from '../parts/words.js';

const TO = [['personal', 'Personal'], ['investment', 'Investment'], ['stock', 'Stock']];
const AS = { personal: 'personal property', investment: 'an investment', stock: 'stock for sale' };

export function open(ui, { id }) {
  return moveForm(ui, id, {
    kind: 'withdrawn', owners: true, title: 'Hold it otherwise', button: 'Record it', sign: 'move', joins: 'Another coin too', fits: CAN.held,
    values: { to: 'personal' },
    begin: (form, card) => { form.values.to = card.own?.held === 'personal' ? 'stock' : 'personal'; },
    ids: (body) => body.coins,
    said: (body) => ({ to: body.to }),
    fields: (form) => html`<div class="field"><span class="label">From now on</span>${segments('to', form.values.to, TO, (value) => form.set('to', value || 'stock'), 'From now on')}</div>`,
    read: (form, cards) => ({ coins: cards.map((card) => card.id), to: form.values.to }),
    done: (form, cards) => `${cards.length === 1 ? 'Held' : `${count(cards.length, 'coin')} held`} as ${AS[form.values.to]} from now on.`,
    caution: 'A dealer who takes a coin out of stock may owe tax on it; your local rules and a licensed preparer decide.',
  });
}
