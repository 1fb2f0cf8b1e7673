// The receipt of a deal that this phone recorded: a picture and a text for the other party, and the way to undo the deal.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { show } from '../parts/money.js';
import { photoUrl, readWaiting } from '../parts/photo-url.js';
import { showDate } from '../parts/dates.js';
import { picture } from '../parts/receipt-picture.js';
import { saveFile } from '../parts/save-file.js';
import { PAYMENT, showId } from '../parts/words.js';
import { asText, receipt } from '../deal/receipt.js';
import { newCoin } from '../engine/new-coin.js';

const KINDS = ['sale', 'ticket', 'purchase', 'trade'];

export function open(ui, { fact: id }) {
  const { engine } = ui;
  const money = (cents, currency = engine.state.currency) => show(cents, currency);
  let made; // undefined: being read; null: no such deal here
  let undone = false;
  let blob = null;
  let url = '';
  let theirs = ''; // the photo of the other party's receipt
  const screen = { title: 'Receipt', form: true, view, changed: standing, close: () => url && URL.revokeObjectURL(url) };
  load().catch((error) => ui.say(error.message ?? String(error), { tone: 'bad' }));
  return screen;

  async function load() {
    const fact = (await engine.entries()).map((one) => one.fact).find((one) => one.id === id && KINDS.includes(one.kind));
    if (!fact) { made = null; ui.update(); return; }
    await standing();
    const { body } = fact;
    const rows = [...(body.sold ?? []), ...(body.bought ?? []), ...(body.out ?? []), ...(body.in ?? []), ...(body.coin ? [body] : [])];
    const [shows, ...cards] = await Promise.all([engine.list('show'), ...rows.map(({ coin }) => engine.card('coin', coin))]);
    const known = new Map(cards.filter(Boolean).map((card) => [card.id, card]));
    const name = (coin, set) => {
      const card = set && Object.keys(set).length ? newCoin(coin, set) : known.get(coin);
      return card ? [card.title, card.dateText, card.grade].filter(Boolean).join(', ') : 'Coin';
    };
    made = receipt(fact, { name, id: showId, money, date: showDate, way: (how) => PAYMENT[how] ?? how,
      show: shows.find((one) => one.id === body.show)?.name ?? '', book: engine.state.bookName });
    if (body.receipt) {
      await readWaiting(engine, [{ photo: body.receipt, local: true }]);
      theirs = photoUrl({ photo: body.receipt }, 'full');
    }
    ui.update();
    blob = await picture(made, money);
    url = URL.createObjectURL(blob);
    ui.update();
  }

  async function standing() {
    const all = await engine.entries();
    undone = all.some(({ fact, state }) => fact.kind === 'void' && fact.body.of === id && state !== 'refused' && state !== 'dropped');
    ui.update();
  }

  function file() {
    return new File([blob], `receipt-${id.slice(-6)}.png`, { type: 'image/png' });
  }

  function can() {
    return blob !== null && navigator.canShare?.({ files: [file()] });
  }

  async function share() {
    try {
      await navigator.share({ files: [file()], text: asText(made, money) });
    } catch (error) {
      if (error.name !== 'AbortError') ui.say('It could not be shared. Save the picture or copy the text instead.', { tone: 'bad' });
    }
  }

  async function copy() {
    try {
      await navigator.clipboard.writeText(asText(made, money));
      ui.say('The text is copied.');
    } catch { ui.say('The text could not be copied; select it below instead.', { tone: 'bad' }); }
  }

  function ask() {
    ui.sheet('Undo this deal?', () => html`<div class="gap"><p>A reversing entry is recorded: the coins are where they were before. Nothing is erased.</p>
      <div class="row"><button class="button grow" @click=${ui.closeSheet}>Keep the deal</button><button class="button danger grow" @click=${reverse}>Undo it</button></div></div>`);
  }

  async function reverse() {
    ui.closeSheet();
    try {
      await engine.record('void', { of: id });
      await standing();
      ui.say('The deal is undone.');
    } catch (error) { ui.say(error.message ?? 'It could not be undone.', { tone: 'bad' }); }
  }

  function view() {
    const bar = head(ui, { title: made?.title ?? 'Receipt', back: '/', close: true });
    if (made === undefined) return bar;
    if (made === null) return html`${bar}<div class="body gap"><p>This phone has no deal of that number. Receipts of older deals, and of other phones, are at the desk.</p><a class="button main" href="/">To the stock</a></div>`;
    return html`${bar}<div class="body gap receipt">
      ${undone ? html`<div class="callout warn">${icon('undo')}<p>This deal is undone; the receipt stands for nothing any more.</p></div>` : nothing}
      ${url ? html`<img class="paper" src=${url} alt=${asText(made, money)}>` : html`<p class="soft" role="status">Drawing …</p>`}
      <p class="soft small">It shows nothing of what the coins cost you.</p>
      <details class="more"><summary>As text</summary><pre class="note-text" tabindex="0">${asText(made, money)}</pre></details>
      ${theirs ? html`<details class="more"><summary>The photo of their receipt</summary><img class="theirs" src=${theirs} alt="The receipt, as photographed"></details>` : nothing}
      <div class="row wrap"><button type="button" class="button grow" @click=${copy}>${icon('note')}Copy the text</button>
        ${can() ? html`<button type="button" class="button grow" ?disabled=${!blob} @click=${() => saveFile(file())}>${icon('save')}Save the picture</button>` : nothing}
        ${undone || engine.state.role !== 'owner' ? nothing : html`<a class="button grow" href=${`/receipt/${id}/photo`}>${icon('camera')}Photo of the paper</a>`}
        ${undone ? nothing : html`<button type="button" class="button grow danger" @click=${ask}>${icon('undo')}Undo the deal</button>`}</div>
    </div>
    <div class="actions"><div class="line">${can() ? html`<button type="button" class="button main grow" @click=${share}>${icon('out')}Share</button>`
      : html`<button type="button" class="button main grow" ?disabled=${!blob} @click=${() => saveFile(file())}>${icon('save')}Save the picture</button>`}
      <a class="button" href="/deal" data-replace>${icon('add')}Next deal</a></div></div>`;
  }
}
