// What to look at to tell a candidate from its rival.
import { given } from './posterior.js';

/**
 * [{feature, name, look, fits, rival, seenAt, effort, kills, hidden, answered}], best first: what the grade still shows,
 * what was not looked at yet, what would end the deal, what is quick and sure. `fits`: the words for this type, `rival`: for
 * the other one.
 */
export function tellApart(naming, state, one, other) {
  const { reference, grade } = naming;
  const [mine, theirs] = [reference.types[one], reference.types[other]];
  const found = new Map();
  const number = grade(state.grade);
  const add = (look, fits, rival, kills = false) => {
    const feature = reference.features[look.feature];
    if (!found.has(look.feature)) {
      found.set(look.feature, {
        feature: look.feature, name: feature?.name ?? look.feature, look: look.look, fits, rival, seenAt: look.seenAt, effort: look.effort,
        error: look.error, kills, hidden: number !== null && (grade(look.seenAt) ?? 0) > number, answered: given(state.answers?.[look.feature]),
      });
    }
  };
  for (const look of mine.looks) if (look.instead[other]) add(look, look.fits, look.instead[other], look.kills);
  for (const look of theirs.looks) if (look.instead[one]) add(look, look.instead[one], look.fits);
  for (const [feature, values] of Object.entries(mine.shows)) {
    const others = theirs.shows[feature];
    const known = reference.features[feature];
    if (!others || !known || values.some((value) => others.includes(value))) continue;
    add({ feature, ...known }, sentence(values, known), sentence(others, known));
  }
  const rank = (look) => [look.answered, look.hidden, !look.kills, look.effort, look.error].map(Number);
  return [...found.values()].map((look) => [rank(look), look]).sort(([a], [b]) => compare(a, b)).map(([, look]) => look);
}

function compare(a, b) {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i] - b[i];
  return 0;
}

export function inWords(values, feature) {
  return values.map((value) => feature.values[value] ?? value).join(', or ');
}

function sentence(values, feature) {
  const words = inWords(values, feature);
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
