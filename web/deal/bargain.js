// How far can the price come down? The desk's rule (money/bargain.py), where there is no network. Amounts are cents.
import { split } from './allocate.js';
import { down, percent, places } from './exact.js';
import { won } from '../engine/moves.js';

const DAY = 86_400_000;
const known = (value) => value !== null && value !== undefined;

/**
 * The answer for {cost, floor, ask, acquired, today, loss?}; null in it: not known. `loss`: the basis for a loss, where a gift
 * has one of its own; break-even is then what leaves no gain, and any price down to that basis is no loss either. Margin, markup and discounts are per cent
 * as text. A discount is rounded down to one decimal, so that giving the figure shown never goes below the price.
 */
export function bargain({ cost, floor, ask, acquired, today, loss }) {
  return {
    days: acquired && acquired <= today ? Math.round((Date.parse(today) - Date.parse(acquired)) / DAY) : null,
    ...at(ask, cost, loss),
    breakEven: known(cost) ? cost : null,
    toBreakEven: discount(ask, cost),
    toFloor: discount(ask, floor),
  };
}

/** {profit, margin, markup} of selling at `price` what cost `cost`, after `spent` on selling it. */
export function at(price, cost, loss, spent = 0) {
  const profit = known(price) && known(cost) ? won(price - spent, cost, loss) : null;
  if (profit === null) return { profit, margin: null, markup: null };
  const of = (whole) => (whole ? percent([BigInt(profit), BigInt(whole)]) : null);
  return { profit, margin: of(price), markup: of(cost + spent) };
}

/** {profit, margin} of coins {net, cost, loss} that go together, after `spent`, which lies on them by what each fetches. */
export function together(rows, spent) {
  const nets = rows.map(({ net }) => net);
  const total = nets.reduce((sum, net) => sum + net, 0);
  const borne = split(spent, total ? nets : nets.map(() => 1));
  const gains = rows.map(({ net, cost, loss }, i) => at(net, cost, loss, borne[i]).profit);
  const profit = gains.includes(null) ? null : gains.reduce((sum, one) => sum + one, 0);
  return { profit, margin: profit === null || !total ? null : percent([BigInt(profit), BigInt(total)]) };
}

/** What `price` is below the ask, in per cent of the ask, rounded down to one decimal; below zero: above the ask. */
export function discount(ask, price) {
  if (!ask || !known(price)) return null;
  return places(down([BigInt(ask - price) * 1000n, BigInt(ask)]), 1);
}
