// A weight or a specific gravity that the law does not allow, said plainly.
import { BROAD, wear } from './likelihood.js';
import { GRAVITY_CAUTION } from './gravity.js';
import { RESOLUTION, issueShares } from './issues.js';
import { given, issueAnswers } from './posterior.js';

const MOST_WEAR = 3; // times the mean loss of the grade: nineteen of twenty coins have lost less
const GRAINS = 0.06479891; // grams in a grain

/** The laws of the pieces of type `at` that date and mint leave open. */
export function openLaws(naming, state, at) {
  const { date, mint } = issueAnswers(state.answers);
  const block = { ...(date && { date }), ...(mint !== undefined && { mint }) };
  const { laws } = issueShares(naming, block, state);
  return naming.struck.laws.filter((law, i) => law.type === at && laws[i] > 0.02);
}

/** {verdict: fits|contradicts|silent, shows, text?, caution?} of a weighing of type `at`. */
export function weightVerdict(naming, state, at) {
  const { g, u = RESOLUTION.weight } = state.answers.weight;
  const laws = openLaws(naming, state, at).filter((law) => law.grams);
  if (!laws.length) return { verdict: 'silent', shows: '' };
  const loss = Math.min(0.25, wear(naming.grade(state.grade)) * MOST_WEAR);
  const judged = laws.map((law) => {
    const off = law.off ? law.off * GRAINS : 2 * law.sd;
    return { law, over: g - (law.grams + off + 2 * u), under: law.grams * (1 - loss) - off - 2 * u - g };
  });
  const shows = [...new Set(laws.map((law) => `${law.grams.toFixed(2)} g`))].join(' or ');
  if (judged.some(({ over, under }) => over <= 0 && under <= 0)) return { verdict: 'fits', shows };
  const { law, over } = judged.reduce((a, b) => (Math.max(a.over, a.under) <= Math.max(b.over, b.under) ? a : b));
  const share = `${Math.abs((g / law.grams - 1) * 100).toFixed(1)} %`;
  const text = over > 0
    ? `${g.toFixed(2)} g is ${share} over the lawful ${law.grams.toFixed(2)} g, more than a right piece may be: wear only takes away.`
    : `${g.toFixed(2)} g is ${share} under the lawful ${law.grams.toFixed(2)} g, more than the law allowed and wear${state.grade ? ' to this grade' : ''} usually takes.`;
  return { verdict: 'contradicts', shows, text, caution: naming.reference.checks?.weight?.caution ?? '' };
}

/** The same of a specific gravity. */
export function gravityVerdict(naming, state, at) {
  const { density, u = RESOLUTION.gravity } = state.answers.gravity;
  const laws = openLaws(naming, state, at).filter((law) => law.range);
  if (!laws.length) return { verdict: 'silent', shows: '' };
  const said = ({ range: [low, high], alloy }) => `${low.toFixed(2)} to ${high.toFixed(2)} of ${naming.reference.alloys[alloy].name}`;
  const shows = [...new Set(laws.map(said))].join(' or ');
  if (laws.some(({ range: [low, high] }) => density >= low - 2 * u && density <= high + 2 * u)) return { verdict: 'fits', shows };
  const text = `A specific gravity of ${density.toFixed(2)} ± ${(2 * u).toFixed(2)} is outside the ${shows}.`;
  return { verdict: 'contradicts', shows, text, caution: GRAVITY_CAUTION };
}

/** What is wrong with a measured answer in itself, in a sentence, or ''. */
export function impossible({ size, weight, gravity }) {
  const outside = (value, [low, high]) => !(value >= low && value <= high);
  if (given(size) && outside(size.mm, BROAD.size)) return `A diameter should be from ${BROAD.size[0]} to ${BROAD.size[1]} mm.`;
  if (given(weight) && outside(weight.g, BROAD.weight)) return `A weight should be from ${BROAD.weight[0]} to ${BROAD.weight[1]} g.`;
  if (given(gravity) && outside(gravity.density, BROAD.gravity)) return `A specific gravity should be from ${BROAD.gravity[0]} to ${BROAD.gravity[1]}.`;
  return '';
}
