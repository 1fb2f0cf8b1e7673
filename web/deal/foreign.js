// What a price in another currency is in the book's money: the desk's rule (money/shares.py: in_book), where there is no network.
import { halfUp } from './exact.js';

const PLACES = 10;
const MOST = 1_000_000n;

/** A rate of exchange, such as "1.0832", as decimal text for an entry; null where it is none. */
export function rate(text) {
  const plain = text.trim().replace(',', '.');
  return /^\d{1,7}(\.\d{1,10})?$/.test(plain) && ratio(plain)[0] > 0n && ratio(plain)[0] <= MOST * 10n ** BigInt(PLACES) ? plain : null;
}

function ratio(plain) {
  const [whole, part = ''] = plain.split('.');
  return [BigInt(whole + part.padEnd(PLACES, '0')), 10n ** BigInt(PLACES)];
}

/** Minor units of the book for `amount` minor units abroad at `text` book units for one foreign unit; rounded once, half up. */
export function inBook(amount, text, digits, abroad) {
  const [above, below] = ratio(text);
  const scale = (many) => 10n ** BigInt(many);
  return Number(halfUp([BigInt(amount) * above * scale(digits), below * scale(abroad)]));
}
