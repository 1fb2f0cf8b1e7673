// Specific gravity from a dry and a wet weighing.

export const AIR = 0.0012; // g/cm³, at rooms near sea level
export const GRAVITY_CAUTION = 'Specific gravity tells of the metal, not of the maker: a false coin may be of right metal. Water brings out stains, and a coin is never dried by rubbing; do not wet one that is not yours.';

/**
 * Density of water free of air, kg/m³, from 0 to 40 °C.
 * Tanaka, Girard, Davis, Peuto, Bignell: Metrologia 38 (2001), 301–309.
 */
export function waterDensity(celsius) {
  return 999.97495 * (1 - ((celsius - 3.983035) ** 2 * (celsius + 301.797)) / (522528.9 * (celsius + 69.34881)));
}

/**
 * Readings in grams. `resolution`: the scale's step, `scatter`: standard deviation of repeated readings, `celsiusOff`:
 * how far the thermometer may be off. Resolves to {density, simple (no air), u, expanded (k = 2)} in g/cm³, or {problem}
 * with a sentence. u after JCGM 100:2008: a step d gives d ÷ √12 in each reading.
 */
export function gravity({ dry, wet, celsius = 20, resolution = 0.01, scatter = 0, celsiusOff = 1, air = AIR }) {
  const problem = wrong(dry, wet, celsius, resolution);
  if (problem) return { problem };
  const water = waterDensity(celsius) / 1000;
  const lost = dry - wet;
  const reading = Math.hypot(resolution / Math.sqrt(12), scatter);
  const byReading = ((water - air) * reading * Math.hypot(dry, wet)) / lost ** 2;
  const slope = (waterDensity(celsius + 0.5) - waterDensity(celsius - 0.5)) / 1000;
  const byWater = ((dry / lost) * slope * celsiusOff) / Math.sqrt(3);
  const u = Math.hypot(byReading, byWater);
  return { density: (dry / lost) * (water - air) + air, simple: (dry / lost) * water, u, byReading, expanded: 2 * u };
}

function wrong(dry, wet, celsius, resolution) {
  if (!(dry > 0) || !Number.isFinite(dry)) return 'Give the weight of the dry coin in grams.';
  if (!(wet > 0) || !Number.isFinite(wet)) return 'Give the reading in water in grams; a coin that shows nothing there would float.';
  if (wet >= dry) return 'A coin is lighter in water than in air: the wet reading must be the smaller one. Were they swapped, or was the scale set to zero without the thread?';
  if (!(celsius >= 0 && celsius <= 40)) return 'The water should be between 0 and 40 °C.';
  if (!(resolution > 0)) return 'Give the step of the scale in grams, such as 0.01.';
  if (dry - wet < 2 * resolution) return 'The two readings differ by less than the scale can tell: this coin needs a finer scale.';
  return '';
}

/**
 * Each alloy against a reading, nearest first: {key, name, low, high, away, verdict}. away: standard uncertainties from the
 * usual range, 0 inside. verdict: 'fits' (inside, or the reading's k = 2 interval reaches it) or 'no'.
 */
export function compareAlloys({ density, u }, alloys) {
  return Object.entries(alloys).map(([key, { name, density: [low, high] }]) => {
    const off = Math.max(0, low - density, density - high);
    return { key, name, low, high, away: off / u, verdict: off <= 2 * u ? 'fits' : 'no', middle: Math.abs(density - (low + high) / 2) };
  }).sort((a, b) => a.away - b.away || a.middle - b.middle).map(({ middle, ...rest }) => rest);
}
