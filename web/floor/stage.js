// At which stage a show is on a day: what is done next follows from it.

/** The last day of a show, '' where it has no days. */
export const lastDay = (show) => show.ends || show.starts || '';

/** before | during | count | close; null once it is closed. `counted`: a round was begun on its last day or later; only an owner closes it. */
export function stageOf(show, day, { counted, owner }) {
  if (show.closed) return null;
  if (show.starts && day < show.starts) return 'before';
  if (!lastDay(show) || day <= lastDay(show)) return 'during';
  return counted && owner ? 'close' : 'count';
}
