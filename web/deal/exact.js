// Exact ratios of whole numbers, for money. A ratio is [above, below], both BigInt, below more than 0.

/** The nearest whole number, as BigInt; a half goes away from zero. */
export function halfUp([above, below]) {
  const size = above < 0n ? -above : above;
  const whole = (2n * size + below) / (2n * below);
  return above < 0n ? -whole : whole;
}

/** The greatest whole number that is not above the ratio, as BigInt. */
export function down([above, below]) {
  const whole = above / below;
  return above < 0n && whole * below !== above ? whole - 1n : whole;
}

/** A whole number of 1/10^places as text: (1525n, 2) → "15.25". */
export function places(units, many) {
  const digits = String(units < 0n ? -units : units).padStart(many + 1, '0');
  const text = many ? `${digits.slice(0, -many)}.${digits.slice(-many)}` : digits;
  return units < 0n ? `-${text}` : text;
}

/** A ratio in per cent as text, rounded half up away from zero: "15.25". */
export const percent = ([above, below], many = 2) => places(halfUp([above * 100n * 10n ** BigInt(many), below]), many);
