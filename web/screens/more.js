// Everything else: the book, this phone, the show, an update, the way out.
import { html, nothing } from '../parts/html.js';
import { head } from '../parts/head.js';
import { icon } from '../parts/icons.js';
import { ago } from '../parts/dates.js';
import { chosenShow } from '../parts/show-field.js';
import { browserTab, canInstall, install, onIos } from '../parts/install.js';

export const link = (path, sign, words, more) => html`<li><a href=${path}>${icon(sign)}<span><b>${words}</b><small>${more}</small></span>${icon('on')}</a></li>`;

export function open(ui) {
  const { engine } = ui;
  let shows = [];
  engine.list('show').then((found) => { shows = found; ui.update(); });
  return { title: 'More', view };

  function view() {
    const { state } = engine;
    const show = chosenShow(shows);
    return html`${head(ui, { title: 'More' })}<div class="body gap">
      ${state.update ? html`<div class="callout good">${icon('sync')}<div class="stack"><p><b>A newer version is here.</b> It is taken when you say so; entries stay.</p>
        <button class="button main" @click=${engine.update}>Take it now</button></div></div>` : nothing}
      ${browserTab() && (canInstall() || onIos()) ? html`<div class="callout">${icon('phone')}<div class="stack"><p><b>Put it on the home screen.</b> ${onIos() ? 'Press Share, then Add to Home Screen. In a tab, this phone’s system may drop entries after a week without use; pair inside the installed app.' : 'It opens at once, full screen, and its data is kept more safely.'}</p>
        ${canInstall() ? html`<button class="button" @click=${() => install().then(ui.update)}>Install</button>` : nothing}</div></div>` : nothing}
      <ul class="menu">
        ${link('/deal', 'sync', 'Deals', 'Several coins sold, bought or traded at once; deals begun')}
        ${link('/buy', 'buy', 'Record a purchase', 'On a new ID drawn here')}
        ${state.role === 'owner' ? link('/memo-in', 'show', 'Take in on memo or consignment', 'Somebody’s coin in your case') : nothing}
        ${link('/types', 'glass', 'Types', 'The catalogue, series by series; a coin named by what it shows')}
        ${show ? link('/show', 'show', show.name, 'Cash, expenses, packing, count, close of show') : nothing}
        ${link('/more/shows', 'show', show ? 'Another show' : 'Shows', show ? `At ${show.name} now` : 'None chosen: sales and purchases carry no show')}
        ${link('/count', 'scan', 'Count the stock', 'Scan what is there; what does not agree is told')}
        ${link('/sets', 'stock', 'Sets', 'What is filled, what is open, what would be better')}
        ${link('/seen', 'eye', 'Seen at tables', 'Who has what, at which price')}
        ${link('/contacts', 'show', 'Contacts', 'Dealers and buyers, deals with them, what was seen there')}
        ${link('/more/ready', 'phone', 'Ready to leave?', 'What works with no network, checked')}
        ${link('/more/about', 'book', 'About and cautions', 'What this tool does not decide')}
        ${link('/more/leave', 'leave', 'Unpair this phone', state.waiting ? `${state.waiting} not sent yet` : 'Takes the book off this phone')}
      </ul>
      <dl class="particulars">
        <div><dt>Book</dt><dd>${state.bookName}</dd></div>
        <div><dt>This device</dt><dd>${state.device?.name ?? ''}</dd></div>
        <div><dt>Role</dt><dd>${state.role === 'owner' ? 'Owner: sees cost and floor' : 'Helper: no cost, no floor, no wants'}</dd></div>
        <div><dt>In step</dt><dd>${state.lastSync ? ago(state.lastSync) : 'not yet'}</dd></div>
      </dl>
      <p class="soft small">Light and dark follow the phone’s own setting.</p>
    </div>`;
  }
}
