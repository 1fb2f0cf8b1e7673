// What a sale comes to with discount and sales tax, and what each coin of it fetches. Amounts are cents; a rate is text.
import { split, whole } from './allocate.js';
import { tax } from './salestax.js';

/** {agreed, tax, total}: the price after discount, the tax on it, and what the buyer pays. `taxing`: none|rate|exempt. */
export function totals({ price, discount = 0, taxing, rate }) {
  const agreed = price - discount;
  const added = taxing === 'rate' && agreed >= 0 ? tax(agreed, rate) : 0;
  return { agreed, tax: added, total: added === null ? null : agreed + added };
}

/** The fields that only a ticket has, {} where none is used. */
export function ticketFields({ discount, taxing, rate, place, certificate, reason }, { tax: added }) {
  const plainRate = rate.trim().replace(/\s*%$/, '').replace(',', '.');
  return {
    ...(discount ? { discount } : {}),
    ...(taxing === 'rate' ? { tax: { ...(place ? { place } : {}), rate: plainRate, cents: added } } : {}),
    ...(taxing === 'exempt' ? { exempt: { certificate: certificate.trim(), reason: reason.trim() } } : {}),
  };
}

/** Asking prices as weights, of lines {ask, of, pieces}; `ask` is for all `of` pieces of the record. Null: one has none. */
export function asking(lines) {
  return lines.every(({ ask }) => ask) ? whole(lines.map(({ ask, of, pieces }) => [BigInt(ask) * BigInt(pieces), of])) : null;
}

/** What each line fetches after the discount: its own price less its part of it, or `all` divided by weights. Null: cannot be said. */
export function fetched({ prices, weights, all, discount = 0 }) {
  if (all !== null) return weights && split(all - discount, weights);
  const less = discount ? split(discount, prices) : prices.map(() => 0);
  return less && prices.map((price, at) => price - less[at]);
}
