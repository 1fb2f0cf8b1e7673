// An amount divided by weights, to the cent, by largest remainder: the desk's rule (money/allocate.py), where there is no network.

/** Shares of `total` (cents) in proportion to `weights` (whole numbers, 0 or more); null where they cannot carry it. */
export function split(total, weights) {
  const whole = weights.map(BigInt);
  const parts = whole.reduce((sum, weight) => sum + weight, 0n);
  if (!parts || whole.some((weight) => weight < 0n)) return null;
  const size = BigInt(Math.abs(total));
  const shares = whole.map((weight) => (size * weight) / parts);
  const left = Number(size - shares.reduce((sum, share) => sum + share, 0n));
  const over = whole.map((weight) => (size * weight) % parts);
  const order = whole.map((_, at) => at).sort((a, b) => (over[a] === over[b] ? a - b : over[a] > over[b] ? -1 : 1));
  for (const at of order.slice(0, left)) shares[at] += 1n;
  return shares.map((share) => Number(total < 0 ? -share : share));
}

const common = (a, b) => (b ? common(b, a % b) : a);

/** Whole numbers in the proportion of `ratios` [[above, below]…] (whole numbers, below more than 0), as small as they go. */
export function whole(ratios) {
  const pairs = ratios.map(([above, below]) => [BigInt(above), BigInt(below)]);
  const scale = pairs.reduce((all, [, below]) => (all / common(all, below)) * below, 1n);
  const found = pairs.map(([above, below]) => above * (scale / below));
  const least = found.reduce(common, 0n) || 1n;
  return found.map((one) => Number(one / least));
}
