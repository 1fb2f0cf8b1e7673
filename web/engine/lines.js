// A coin as one line of text: what a list row shows and what is searched, parted by tabs.
const FIELDS = ['id', 'seq', 'state', 'place', 'denom', 'type', 'year', 'mint', 'title', 'dateText', 'grade', 'gradeName', 'ask', 'photo', 'free', 'theirs'];

const clean = (value) => {
  const text = value == null ? '' : String(value);
  return /[\t\n\r]/.test(text) ? text.replace(/[\t\n\r]+/g, ' ') : text;
};

/** The line of a coin card at version `seq`. */
export function lineOf(card, seq) {
  const photo = card.photos?.length ? (card.photos.find((one) => one.side === 'obverse') ?? card.photos[0]).photo : '';
  let free = '';
  for (const said of [card.titleText, card.variety, card.certified_by, card.certificate]) if (said) free += ` ${said}`;
  for (const note of card.notes ?? []) free += ` ${note.text}`;
  const shown = [
    card.id, seq, card.state, card.place, card.denom, card.type, card.year, card.mint, card.title, card.dateText, card.grade, card.gradeName,
    card.ask, photo, free, card.theirs ? 'yes' : '',
  ];
  return shown.map(clean).join('\t');
}

/** {id, seq, state, place, denom, type, year, mint, title, dateText, grade, gradeName, ask, photo, free, theirs} of a line, all text. */
export function fieldsOf(line) {
  const parts = line.split('\t');
  const fields = {};
  for (let i = 0; i < FIELDS.length; i++) fields[FIELDS[i]] = parts[i] ?? ''; // a line of an older app has fewer
  return fields;
}

/** The version of coin `id` in a pack's lines, or null. */
export function seqIn(lines, id) {
  const at = lines.startsWith(`${id}\t`) ? 0 : lines.indexOf(`\n${id}\t`) + 1;
  if (at === 0 && !lines.startsWith(`${id}\t`)) return null;
  const from = at + id.length + 1;
  return Number(lines.slice(from, lines.indexOf('\t', from)));
}

/**
 * Text as it is searched: lower case, without accents, and without the hyphens inside it, so that `vf20` finds VF-20,
 * `1893s` finds 1893-S, and an ID is found however it is written.
 */
export function plain(text) {
  const low = text.toLowerCase().replace(/(?<=[a-z0-9])[-\u2010-\u2015](?=[a-z0-9])/g, '');
  return /[^\x00-\x7f]/.test(low) ? low.normalize('NFKD').replace(/[\u0300-\u036f]/g, '') : low;
}
