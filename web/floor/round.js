// The name of a round of counting. It follows from the show and the day, so that phones that have not heard of each other count
// in the same one.

/** A UUID: the first part of `base` (the show's, or the book's for the whole stock), the day, and which round of that day it is. */
export const roundOf = (base, day, number = 1) => `${base.slice(0, 24)}${day.replaceAll('-', '')}${String(number).padStart(4, '0')}`;

/** The round to count in: the one just begun, the latest of today, or today's first. `rounds`: [{id, when}], the latest last. */
export function currentRound(base, day, rounds, { begun, dayOf }) {
  const latest = rounds.at(-1);
  if (begun && !rounds.some((one) => one.id === begun) && begun.startsWith(roundOf(base, day).slice(0, 32))) return begun;
  return latest && dayOf(latest.when) === day ? latest.id : roundOf(base, day);
}

/** Today's next one. */
export function nextRound(base, day, rounds) {
  for (let number = 1; ; number++) if (!rounds.some((one) => one.id === roundOf(base, day, number))) return roundOf(base, day, number);
}
