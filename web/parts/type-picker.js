// A type of the catalogue: those of the denomination, those struck in the year first, filtered as one types.
import { html, nothing, repeat } from './html.js';
import { icon } from './icons.js';
import { holder, mark } from './holder.js';
import { showYears } from './dates.js';

export function typesOf(reference, denom) {
  return Object.entries(reference?.types ?? {}).filter(([, type]) => !denom || type.denom === denom).map(([key, type]) => ({ key, ...type }));
}

// What is wrong with a date for a type, in a sentence, or null. The desk has the last word.
export function neverStruck(reference, key, year) {
  const type = reference?.types?.[key];
  if (!type || year === null || Number.isNaN(year) || type.years.includes(year)) return null;
  const coins = reference.denominations.find((one) => one.key === type.denom)?.plural ?? 'coins';
  const others = typesOf(reference, type.denom).filter((one) => one.years.includes(year)).map((one) => one.name);
  if (others.length) return `No ${type.name} ${coins} are dated ${year}; ${coins} of ${year} are ${others.join(' or ')}.`;
  return `No ${type.name} ${coins} are dated ${year}; they are dated ${showYears(type.years)}.`;
}

// `none`: what stands first, for no type: [words, more].
export function pickType(ui, { denom, year, now }, choose, { none = ['No type of the catalogue', 'Name the coin in words instead'] } = {}) {
  const { reference } = ui.engine;
  let text = '';
  ui.sheet('Type', () => {
    const words = text.toLowerCase().split(/\s+/).filter(Boolean);
    const struck = (type) => (year && type.years.includes(year) ? 0 : 1);
    const list = typesOf(reference, denom)
      .filter((type) => words.every((word) => `${type.title} ${showYears(type.years)} ${word.match(/^\d{4}$/) && type.years.includes(Number(word)) ? word : ''}`.toLowerCase().includes(word)))
      .sort((a, b) => struck(a) - struck(b));
    return html`<div class="stack">
      <div class="search">${icon('search')}<input type="search" aria-label="Filter types" placeholder="Name or year" .value=${text} @input=${(event) => { text = event.target.value; ui.update(); }}></div>
      <ul class="options">
        <li><button aria-pressed=${String(!now)} @click=${() => { ui.closeSheet(); choose(''); }}><span>${none[0]}<small>${none[1]}</small></span></button></li>
        ${repeat(list, (type) => type.key, (type) => html`<li><button aria-pressed=${String(type.key === now)} @click=${() => { ui.closeSheet(); choose(type.key); }}>
          ${holder({ denom: type.denom, top: mark(type.denom, reference), year: year && type.years.includes(year) ? year : '' })}
          <span>${type.title}<small class="figures">${showYears(type.years)}</small></span>${type.key === now ? icon('fits') : nothing}</button></li>`)}
      </ul>
      ${list.length ? nothing : html`<p class="soft">${denom && !typesOf(reference, denom).length ? 'The catalogue has no types of this denomination yet. Name the coin in words.' : 'No type fits.'}</p>`}
    </div>`;
  });
}
