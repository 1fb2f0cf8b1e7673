// The normal distribution, and a normal error less an exponential loss.

const SQRT2 = Math.sqrt(2);
const ROOT_PI = Math.sqrt(Math.PI);
const FAR = 8; // standard deviations beyond which nothing is left
// Chebyshev fit to erfc, relative error below 1.2e-7 everywhere: figures of Press et al., Numerical Recipes, from memory;
// held against Python's math.erfc by tests/name.
const FIT = [-1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223, 0.17087277];

export function erfc(x) {
  const z = Math.abs(x);
  const t = 1 / (1 + z / 2);
  let sum = 0;
  for (let i = FIT.length - 1; i >= 0; i--) sum = sum * t + FIT[i];
  const tail = t * Math.exp(-z * z + sum);
  return x >= 0 ? tail : 2 - tail;
}

export const cdf = (z) => erfc(-z / SQRT2) / 2;

export const pdf = (x, mean, sd) => Math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * SQRT2 * ROOT_PI);

/** Density at x of a value spread evenly from low to high and measured with a normal error. */
export function spread(x, low, high, sd) {
  if (x < low - FAR * sd || x > high + FAR * sd) return 0;
  if (high - low < 1e-9) return pdf(x, low, sd);
  return (cdf((high - x) / sd) - cdf((low - x) / sd)) / (high - low);
}

/** Density at x of `top`, less an exponential loss of that mean, measured with a normal error. */
export function lessened(x, top, loss, sd) {
  if (x > top + FAR * sd || x < top - 40 * loss - FAR * sd) return 0;
  const rate = 1 / loss;
  if (!(loss > 0) || rate * sd > 20) return pdf(x, top - loss, sd);
  const z = (x - top + rate * sd * sd) / (SQRT2 * sd);
  const power = (rate / 2) * (2 * (x - top) + rate * sd * sd);
  if (z > 5) return (rate / 2) * Math.exp(power - z * z) / (z * ROOT_PI); // both factors leave the range of a double
  return (rate / 2) * Math.exp(power) * erfc(z);
}
