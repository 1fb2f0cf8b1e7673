// A form about one or several coins of the book, a day and a note: what the screens of moves and later costs share.
import { html, nothing } from './html.js';
import { head } from './head.js';
import { area, date, makeForm, submit } from './field.js';
import { hideCosts } from './discretion.js';
import { inPlace, leaveOff, mended, whyRefused } from './mending.js';
import { readParties } from './party.js';
import { joinCoins } from './several.js';
import { slip } from './slip.js';
import { today } from './dates.js';
import { undoLast } from './undo.js';

/**
 * `about` says what is particular: `kind` of entry, `title`, `button`, `sign`, `values` of its fields, and
 *   fits(card)              '' where the entry is possible for this coin now, else a sentence why not
 *   begin(form, card)       what is filled in at first; may take a while
 *   ids(body)               the coins of such an entry; `said(body)`: its values for the fields
 *   fields(form, cards)     what stands between the coins and the day
 *   read(form, cards, wrong) → the body without day and note; adds a sentence to `wrong` for each field that does not work
 *   done(form, cards)       the sentence after it
 *   owners                  true: not for a helper
 *   joins                   a word for other coins that may join, or absent: one coin alone
 */
export function moveForm(ui, id, about) {
  const { engine } = ui;
  const form = makeForm(ui, { ...about.values, date: today(), note: '' });
  let cards; // undefined: being read; the first is the coin that the form was opened for
  let refused = null;

  async function load() {
    const [card, found] = await Promise.all([engine.card('coin', id), mended(ui), readParties(engine)]);
    refused = found;
    const body = found?.fact.body;
    const others = await Promise.all((body ? about.ids(body) : []).filter((one) => one !== id).map((one) => engine.card('coin', one)));
    if (card) await about.begin?.(form, card);
    if (body) Object.assign(form.values, { date: body.date, note: body.note ?? '' }, about.said(body));
    cards = card ? [card, ...others.filter(Boolean)] : [];
    ui.update();
  }
  const ready = load();
  return { title: about.title, form: true, view, close, ready };

  function close() {
    leaveOff();
    hideCosts();
  }

  async function record(event) {
    event.preventDefault();
    const wrong = {};
    const said = about.read(form, cards, wrong);
    if (!form.values.date) wrong.date = 'Give the day on which it was.';
    if (Object.keys(wrong).length) { form.fail(wrong); return; }
    await form.run(async () => {
      const note = form.values.note.trim();
      const body = { ...said, date: form.values.date, ...(note ? { note } : {}) };
      await inPlace(ui, refused, await engine.record(about.kind, body));
      ui.go(`/c/${id}`, { replace: true });
      ui.say(about.done(form, cards), { act: { text: 'Void', run: () => undoLast(ui) } });
    });
  }

  function view() {
    const bar = head(ui, { title: about.title, back: `/c/${id}`, close: true });
    if (!cards) return bar;
    const why = cards.length ? (about.owners && !cards[0].own ? 'Only the owner may enter this.' : !refused && about.fits(cards[0])) : 'This coin is not in the copy on this phone.';
    if (why) {
      return html`${bar}<div class="body gap">${cards.length ? slip(ui, cards[0]) : nothing}<p>${why}</p>
        <a class="button" href=${`/c/${id}`}>To its card</a></div>`;
    }
    return html`<form class="fill" @submit=${record} novalidate>${bar}<div class="body gap">${whyRefused(refused)}
      ${about.joins ? joinCoins(ui, cards, about) : slip(ui, cards[0])}
      ${about.fields(form, cards)}
      ${date(form, 'date', 'Date')}
      ${area(form, 'note', 'Note', { rows: 2 })}
      ${about.caution ? html`<p class="soft small">${about.caution}</p>` : nothing}
    </div>${submit(form, about.button, about.sign)}</form>`;
  }
}

/** Fields that were filled in, with their texts trimmed: {with: 'R. Holt'}. */
export const filled = (values, names) => Object.fromEntries(names.map((name) => [name, values[name].trim()]).filter(([, text]) => text));
