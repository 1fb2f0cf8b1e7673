// A coin as one line of text: what a list row shows, and what is searched. Fields are parted by tabs.
const clean = (text) => String(text ?? '').replace(/[\t\n]/g, ' ');
const FIELDS = ['id', 'seq', 'denom', 'state', 'place', 'title', 'dateText', 'grade', 'ask', 'photo'];

/** The line of a coin card at version `seq`. */
export function lineOf(card, seq) {
  const photo = card.photos?.find((one) => one.side === 'obverse')?.photo ?? card.photos?.[0]?.photo ?? '';
  const shown = [card.id, seq, card.denom, card.state, card.place, card.title, card.dateText, card.grade, card.ask ?? '', photo];
  const hay = [
    card.title, card.titleText, card.dateText, card.variety, card.grade, card.grade?.replace('-', ''), card.gradeName,
    card.id, `${card.id.slice(0, 5)}-${card.id.slice(5)}`, card.place, card.certified_by, card.certificate,
    ...(card.notes ?? []).map((note) => note.text),
  ].filter(Boolean).join(' ').toLowerCase();
  return [...shown.map(clean), clean(hay)].join('\t');
}

/** The list row {id, title, dateText, grade, place, state, ask, photo} of a line. */
export function rowOf(line) {
  const parts = line.split('\t');
  const row = Object.fromEntries(FIELDS.map((name, i) => [name, parts[i]]));
  return { ...row, seq: Number(row.seq), ask: row.ask === '' ? null : Number(row.ask), photo: row.photo || null };
}

/** Field number `n` of a line (0 is the ID). */
export function field(line, n) {
  let from = 0;
  for (let i = 0; i < n; i++) from = line.indexOf('\t', from) + 1;
  return line.slice(from, line.indexOf('\t', from));
}

/** Where the searched text of a line starts. */
export const hayAt = (line) => line.lastIndexOf('\t') + 1;

/** The version of coin `id` in a pack's lines, or null. */
export function seqIn(lines, id) {
  const at = lines.startsWith(`${id}\t`) ? 0 : lines.indexOf(`\n${id}\t`) + 1;
  if (at === 0 && !lines.startsWith(`${id}\t`)) return null;
  const from = at + id.length + 1;
  return Number(lines.slice(from, lines.indexOf('\t', from)));
}
