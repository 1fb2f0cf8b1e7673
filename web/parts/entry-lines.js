// Entries as lines of a list: those of one round of counting, one a second or so, are one line.
import { count } from './words.js';

const PLACES = 3; // named

const roundOf = ({ kind, by, body }) => (kind === 'count' && !by ? body.count : null);

/** [{key, rows}…] in the order of `list`, whose rows are {fact, state, verdict}; several rows: a round. */
export function linesOf(list) {
  const lines = new Map();
  for (const one of list) {
    const key = roundOf(one.fact) ?? one.fact.id;
    if (lines.has(key)) lines.get(key).push(one);
    else lines.set(key, [one]);
  }
  return [...lines].map(([key, rows]) => ({ key, rows }));
}

/** “Count, Case 2: 214 labels in 31 entries”: a label that was scanned twice is one. */
export function roundWords(rows) {
  const labels = new Set(rows.flatMap(({ fact }) => fact.body.seen.map((row) => row.coin)));
  const places = [...new Set(rows.map(({ fact }) => fact.body.place).filter(Boolean))].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const where = places.length > PLACES ? `${places.length} places` : places.join(', ');
  return `Count${where ? `, ${where}` : ''}: ${count(labels.size, 'label')} in ${count(rows.length, 'entry', 'entries')}`;
}
