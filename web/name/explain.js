// Why a candidate stands where it stands: what fits, what contradicts, what to look at to be sure.
import { CANNOT_TELL, digitsGiven, readDate } from './likelihood.js';
import { CIRCLE_U } from './measures.js';
import { given } from './posterior.js';
import { inWords, tellApart } from './separate.js';
import { gravityVerdict, weightVerdict } from './warnings.js';

/**
 * {type, title, p, fits, contradicts, silent, warnings: [{feature, text, caution}], sure}. The first three hold
 * {feature, name, said, shows}: what was answered, and what the type shows, in words. `sure`: of separate.js, against
 * `rival`, the type that comes nearest.
 */
export function explain(naming, state, shares, key) {
  const at = naming.index.get(key);
  const type = naming.types[at];
  const found = { type: key, title: type.title, p: shares[at], fits: [], contradicts: [], silent: [], warnings: [], rival: null, sure: [] };
  for (const [feature, answer] of Object.entries(state.answers ?? {})) {
    if (!given(answer)) continue;
    const { verdict, said, shows, text, caution } = judge(naming, state, at, feature, answer);
    found[verdict]?.push({ feature, name: nameOf(naming, feature), said, shows });
    if (text) found.warnings.push({ feature, text, caution });
  }
  found.rival = rivalOf(naming, shares, at);
  if (found.rival) found.sure = tellApart(naming, state, key, found.rival).filter((look) => !look.answered);
  return found;
}

export const nameOf = (naming, feature) => (feature === 'denom' ? 'Denomination' : naming.reference.features[feature]?.name ?? feature);

function rivalOf(naming, shares, at) {
  let best = -1;
  for (let m = 0; m < naming.count; m++) if (m !== at && (best < 0 || shares[m] > shares[best])) best = m;
  return best < 0 ? null : naming.keys[best];
}

function judge(naming, state, at, feature, answer) {
  const type = naming.types[at];
  switch (feature) {
    case 'date': return dated(naming, type, answer);
    case 'mint': return minted(type, answer);
    case 'size': return sized(type, answer);
    case 'weight': return { said: `${answer.g.toFixed(2)} g`, ...weightVerdict(naming, state, at) };
    case 'gravity': return { said: answer.density.toFixed(2), ...gravityVerdict(naming, state, at) };
    default: {
      const choice = naming.choices.find((one) => one.key === feature);
      const stated = feature === 'denom' ? [type.denom] : type.shows[feature] ?? [];
      if (!choice) return { verdict: '' };
      const said = choice.words[answer] ?? answer;
      if (!stated.length) return { verdict: 'silent', said, shows: '' };
      return { verdict: stated.includes(answer) ? 'fits' : 'contradicts', said, shows: inWords(stated, { values: choice.words }) };
    }
  }
}

function dated(naming, type, answer) {
  const { digits } = readDate(answer);
  if (!digits) return { verdict: '' };
  const fits = type.years.some((year) => digitsGiven(digits, year, 0) === 1);
  return { verdict: fits ? 'fits' : 'contradicts', said: digits.map((one) => one ?? CANNOT_TELL).join(''), shows: runs(type.years) };
}

const markOf = (mint) => mint || 'no mint mark';

function minted(type, answer) {
  const mints = [...new Set(type.issues.map((one) => one.mint))].sort();
  return { verdict: mints.includes(answer) ? 'fits' : 'contradicts', said: markOf(answer), shows: mints.map(markOf).join(', ') };
}

function sized({ mm: [low, high] }, { mm, u = CIRCLE_U }) {
  const fits = mm >= low - 2 * u && mm <= high + 2 * u;
  const short = (x) => String(Math.round(x * 100) / 100);
  return { verdict: fits ? 'fits' : 'contradicts', said: `${mm.toFixed(1)} mm`, shows: low === high ? `${short(low)} mm` : `${short(low)} to ${short(high)} mm` };
}

function runs(years) {
  const found = [];
  for (const year of years) {
    if (found.length && year === found.at(-1)[1] + 1) found.at(-1)[1] = year;
    else found.push([year, year]);
  }
  return found.map(([a, b]) => (a === b ? `${a}` : `${a}–${b}`)).join(', ');
}
