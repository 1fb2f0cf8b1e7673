// How the price of several coins bought together is shared over them: weights for the desk, which divides by them.
import { whole } from './allocate.js';

/**
 * Weights of lines {price, face, estimate, pieces} by `how` (each, weights, estimate, face, even), or {wrong}: a sentence.
 * `price` is what was typed for a line, `face` [above, below] of a piece with its country, `estimate` cents for the line. Null: evenly.
 */
export function shares(how, lines) {
  if (lines.length < 2 || how === 'even') return { weights: null };
  if (how === 'each' || how === 'weights') {
    if (lines.some(({ price }) => price === null)) return { wrong: 'Give every coin its share, or share the price in another way.' };
    const none = lines.every(({ price }) => !price);
    if (none && how === 'weights') return { wrong: 'Give at least one coin a share of more than nothing.' };
    return { weights: none ? null : lines.map(({ price }) => price) };
  }
  if (how === 'estimate') {
    return lines.some(({ estimate }) => !estimate) ? { wrong: 'There is no estimate for every coin; share the price in another way.' }
      : { weights: lines.map(({ estimate }) => estimate) };
  }
  if (lines.some(({ face }) => !face)) return { wrong: 'To share by face, give every coin its denomination.' };
  if (new Set(lines.map(({ country }) => country)).size > 1) return { wrong: 'Face values of several countries cannot be weighed against each other; share the price in another way.' };
  return { weights: whole(lines.map(({ face: [above, below], pieces }) => [BigInt(above) * BigInt(pieces), below])) };
}
