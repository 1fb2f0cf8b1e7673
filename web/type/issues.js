// The dates and mints of a type. Years with something to say stand out; the rest are a table of mint marks.
import { html, nothing } from '../parts/html.js';

const place = (mint) => mint || 'no mark';

// held: "1909S" of what is in the stock.
export function issues(type, held) {
  const told = type.issues.filter((one) => one.note || one.varieties?.length || one.mintage !== undefined);
  const marks = [...new Set(type.issues.map((one) => one.mint ?? ''))].sort();
  return html`<section class="panel"><header><h2>Dates and mints</h2></header>
    ${marks.length > 1 || !told.length ? html`<div class="grid-scroll" tabindex="0" role="region" aria-label="Dates and mints"><table class="dates figures"><thead><tr><th scope="col">Date</th>${marks.map((mint) => html`<th scope="col">${place(mint)}</th>`)}</tr></thead>
      <tbody>${type.years.map((year) => html`<tr><th scope="row">${year}</th>${marks.map((mint) => cell(type.issues.find((one) => one.year === year && (one.mint ?? '') === mint), held.has(`${year}${mint}`)))}</tr>`)}</tbody></table></div>` : nothing}
    ${told.length ? html`<dl class="inside">${told.map((one) => html`<div><dt class="figures"><b>${one.year}${one.mint ? `-${one.mint}` : ''}</b>${one.proofOnly ? html` <span class="soft">proofs only</span>` : nothing}
      ${one.mintage !== undefined ? html` <span class="soft">${one.mintage.toLocaleString('en-US')} struck (${one.source})</span>` : nothing}${held.has(`${one.year}${one.mint ?? ''}`) ? html` <span class="good">in your stock</span>` : nothing}</dt>
      ${one.varieties?.length || one.note ? html`<dd>${one.note ?? ''}${one.varieties?.length ? html`<span class="soft"> ${one.varieties.join('; ')}.</span>` : nothing}</dd>` : nothing}</div>`)}</dl>` : nothing}
  </section>`;
}

const cell = (issue, have) => html`<td class=${have ? 'have' : issue ? issue.proofOnly ? 'proof' : 'struck' : ''}>${issue ? (have ? '●' : issue.proofOnly ? 'proof' : '○') : nothing}<span class="hide">${issue ? (have ? 'in your stock' : 'struck') : 'none'}</span></td>`;
