// How far can the price come down? The desk's rule (money/bargain.py), where there is no network. Amounts are cents.
import { down, percent, places } from './exact.js';

const DAY = 86_400_000;
const known = (value) => value !== null && value !== undefined;

/**
 * The answer for {cost, floor, ask, acquired, today}; null in it: not known. Margin, markup and discounts are per cent
 * as text. A discount is rounded down to one decimal, so that giving the figure shown never goes below the price.
 */
export function bargain({ cost, floor, ask, acquired, today }) {
  return {
    days: acquired && acquired <= today ? Math.round((Date.parse(today) - Date.parse(acquired)) / DAY) : null,
    ...at(ask, cost),
    breakEven: known(cost) ? cost : null,
    toBreakEven: discount(ask, cost),
    toFloor: discount(ask, floor),
  };
}

/** {profit, margin, markup} of selling at `price` what cost `cost`. */
export function at(price, cost) {
  if (!known(price) || !known(cost)) return { profit: null, margin: null, markup: null };
  const profit = price - cost;
  const of = (whole) => (whole ? percent([BigInt(profit), BigInt(whole)]) : null);
  return { profit, margin: of(price), markup: of(cost) };
}

/** What `price` is below the ask, in per cent of the ask, rounded down to one decimal; below zero: above the ask. */
export function discount(ask, price) {
  if (!ask || !known(price)) return null;
  return places(down([BigInt(ask - price) * 1000n, BigInt(ask)]), 1);
}
