// A coin, or pieces of a lot, that is missing, lost, stolen or destroyed.
import { html, nothing } from '../parts/html.js';
import { amount, cents, segments, text, typed } from '../parts/field.js';
import { moveForm } from '../parts/move-form.js';
import { CAN } from '../parts/coin-doings.js';
import { askedOf, asksPart, partField, readPart } from '../parts/lot-part.js';

const HOW = [['missing', 'Missing'], ['lost', 'Lost'], ['stolen', 'Stolen'], ['destroyed', 'Destroyed']];

export function open(ui, { id }) {
  let specific = false;
  return moveForm(ui, id, {
    kind: 'lost', title: 'Missing, lost or stolen', button: 'Record the loss', sign: 'unsure', fits: CAN.lost,
    values: { how: 'missing', pieces: '', of: '', reimbursed: '' },
    begin: async () => { specific = await asksPart(ui.engine); },
    ids: (body) => [body.coin],
    said: (body) => ({ how: body.how, pieces: body.pieces ? String(body.pieces) : '', of: body.of ?? '', reimbursed: typed(ui, body.reimbursed) }),
    fields: (form, [card]) => html`
      <div class="field"><span class="label">How</span>${segments('how', form.values.how, HOW, (value) => form.set('how', value || 'missing'), 'How')}</div>
      ${card.pieces ? html`<div @input=${() => { delete form.wrong.of; }}>${text(form, 'pieces', 'Pieces', { mode: 'numeric', max: 6, help: `Of ${card.left} that are left; empty: all of them.` })}</div>` : nothing}
      ${askedOf(card, specific).length ? partField(ui, form, 'of', askedOf(card, specific)) : nothing}
      ${form.values.how === 'missing' ? nothing : amount(ui, form, 'reimbursed', 'Reimbursed', { help: 'By an insurer or others; may be added at the desk when it comes.' })}
      <p class="small soft">Found again? Then say so on its card.</p>`,
    read(form, [card], wrong) {
      const { how } = form.values;
      const body = { coin: card.id, how };
      const pieces = form.values.pieces.trim();
      if (card.pieces && pieces) {
        if (!/^\d+$/.test(pieces) || Number(pieces) < 1 || Number(pieces) > card.left) wrong.pieces = `Give a number of pieces from 1 to ${card.left}.`;
        body.pieces = Number(pieces);
      }
      const { from, wrong: which } = readPart(askedOf(card, specific), form.values.of, body.pieces ?? card.left, card.left);
      if (which && !wrong.pieces) wrong.of = which;
      if (from) body.of = from;
      const reimbursed = how === 'missing' ? null : cents(ui, form, 'reimbursed');
      if (Number.isNaN(reimbursed)) wrong.reimbursed = 'That is not an amount of money.';
      if (reimbursed !== null) body.reimbursed = reimbursed;
      return body;
    },
    done: (form) => `Recorded as ${form.values.how}.`,
    caution: 'What a loss means for tax and insurance is for your local rules and a licensed preparer to say.',
  });
}
