// What a sale comes to with discount, sales tax and several payments. Amounts are cents; nothing is typed text but the rate.
import { tax } from './salestax.js';

/** {agreed, tax, total}: the price after discount, the tax on it, and what the buyer pays. `taxing`: none|rate|exempt. */
export function totals({ price, discount = 0, taxing, rate }) {
  const agreed = price - discount;
  const added = taxing === 'rate' && agreed >= 0 ? tax(agreed, rate) : 0;
  return { agreed, tax: added, total: added === null ? null : agreed + added };
}

/** The fields by which a sale becomes a ticket, or null where none is used. `paid`: [{how, cents}], more than one counts. */
export function ticketFields({ discount, taxing, rate, place, certificate, reason, paid }, { tax: added }) {
  const plainRate = rate.trim().replace(/\s*%$/, '').replace(',', '.');
  const fields = {
    ...(discount ? { discount } : {}),
    ...(taxing === 'rate' ? { tax: { ...(place ? { place } : {}), rate: plainRate, cents: added } } : {}),
    ...(taxing === 'exempt' ? { exempt: { certificate: certificate.trim(), reason: reason.trim() } } : {}),
    ...(paid.length > 1 ? { payments: paid } : {}),
  };
  return Object.keys(fields).length ? fields : null;
}
