// Sales tax on a price, exactly: carried to the third decimal, half up to the cent (Streamlined Sales and Use Tax
// Agreement, § 324; from memory). The desk's rule is money/salestax.py. A rate is text in per cent, such as "8.25".
import { halfUp } from './exact.js';

/** A rate as a ratio [above, below]; null where the text is none from 0 to 100. */
export function rate(text) {
  const plain = text.trim().replace(/%$/, '').trim();
  const parts = plain.match(/^(\d{1,3})(?:[.,](\d{1,6}))?$/);
  if (!parts) return null;
  const ratio = [BigInt(parts[1] + (parts[2] ?? '').padEnd(6, '0')), 100_000_000n];
  return ratio[0] > ratio[1] ? null : ratio;
}

/** The tax in cents on `cents` at the rate `text`; null where that is no rate. */
export function tax(cents, text) {
  const ratio = rate(text);
  return ratio && Number(halfUp([BigInt(cents) * ratio[0], ratio[1]]));
}
