// Run by naming.py in a page of the served desk: names random coins with the phone's own modules. All draws follow the seed.
async ({ task, pack, given }) => {
  const [{ unpacked }, name, { entropy }, { questions, SURE }] = await Promise.all(
    ['engine/unpack', 'name/index', 'name/entropy', 'name/ask'].map((one) => import(`/web/${one}.js`)));
  const SURE_ANSWERS = { errors: { scale: 0, least: 0 } };
  globalThis.made ??= {};
  const prepared = (sure) => (globalThis.made[sure] ??= name.prepare(unpacked(structuredClone(pack)), sure ? SURE_ANSWERS : {}));
  if (task === 'clear') { globalThis.made = {}; return 0; }

  let last = given.seed;
  const draw = () => { // mulberry32
    last = (last + 0x6d2b79f5) | 0;
    let t = Math.imul(last ^ (last >>> 15), 1 | last);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const pick = (list) => list[Math.floor(draw() * list.length)];
  const bell = () => Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw());

  function issueOf({ struck: { from, share } }, t) {
    let left = draw();
    for (let i = from[t]; i < from[t + 1]; i++) if ((left -= share[i]) < 0) return i;
    return from[t + 1] - 1;
  }

  // By the prior that the engine is given.
  function coinOf({ priors, count }) {
    let left = draw() * (1 - priors[given.prior][count]);
    for (let t = 0; t < count; t++) if ((left -= priors[given.prior][t]) < 0) return t;
    return count - 1;
  }

  // What this person answers of a coin of type `t`, issue `i`: wrong at `rate`, "cannot tell" at `unsure`.
  function answer(naming, question, t, i) {
    const { struck } = naming;
    const type = naming.types[t];
    const mint = struck.mints[struck.mint[i]];
    const wrong = draw() < given.rate;
    if (draw() < given.unsure || given.blind.includes(question.feature)) return '?';
    switch (question.kind) {
      case 'date': {
        const digits = [...String(struck.year[i])];
        if (wrong) { const at = Math.floor(draw() * 4); digits[at] = pick([...'0123456789'].filter((one) => one !== digits[at])); }
        return digits.join('');
      }
      case 'mint': return wrong ? pick(struck.mints.filter((one) => one !== mint)) ?? mint : mint;
      case 'size': return { mm: wrong ? 8 + 37 * draw() : type.mm[0] + (type.mm[1] - type.mm[0]) * draw() + 0.5 * bell() };
      case 'weight': {
        const laws = [...struck.of.subarray(struck.first[i], struck.first[i + 1])].map((law) => struck.laws[law]).filter((law) => law.grams);
        if (!laws.length) return '?';
        const law = pick(laws);
        const loss = { 'MS-63': 0.002, 'VF-20': 0.017, 'G-4': 0.05, 'P-1': 0.09 }[given.grade] ?? 0.025;
        return { g: wrong ? 0.3 + 35 * draw() : Math.max(0.25, law.grams * (1 + loss * Math.log(1 - draw())) + law.sd * bell()) };
      }
      default: {
        const shows = type.shows[question.feature];
        if (!shows?.length) return '?'; // the catalogue does not say
        const others = question.answers.map((one) => one.value).filter((one) => !shows.includes(one));
        return wrong && others.length ? pick(others) : pick(shows);
      }
    }
  }

  function trial() {
    const naming = prepared(given.sure);
    const results = [];
    const total = { asked: 0, most: 0, before: 0, after: 0 };
    for (let n = 0; n < given.coins; n++) {
      const t = coinOf(naming);
      const i = issueOf(naming, t);
      const state = { answers: {}, grade: given.grade, prior: given.prior, tools: {} };
      let { shares } = name.weigh(naming, state);
      total.before += entropy(shares);
      let asked = 0;
      for (;; asked++) {
        const { question } = name.ask(naming, state, shares);
        if (!question) break;
        total.most += Math.max(...questions(naming, state, shares).map((one) => one.gain));
        state.answers[question.feature] = answer(naming, question, t, i);
        shares = name.weigh(naming, state).shares;
      }
      total.asked += asked;
      total.after += entropy(shares);
      const rank = shares.reduce((above, p, m) => above + (p > shares[t] || (p === shares[t] && m < t) ? 1 : 0), 0);
      results.push([t, rank, Math.max(...shares), asked]);
    }
    return { results, total, count: naming.count };
  }

  // The greatest share of coins, drawn evenly, that one more question can name for sure: the true type above SURE.
  function named(naming, state, shares) {
    let best = 0;
    for (const { of } of questions(naming, state, shares)) {
      let sum = 0;
      for (let a = 0; a < of.columns; a++) {
        let [all, top] = [0, 0];
        for (let m = 0; m < shares.length; m++) {
          const part = shares[m] * of.table[m * of.columns + a];
          all += part;
          if (part > top) top = part;
        }
        if (all > 0 && top / all >= SURE) sum += top;
      }
      if (sum > best) best = sum;
    }
    return best;
  }

  // A bound that no way of asking goes below, with sure answers: 1 + those not named by the best first question + those not
  // named by the best pair, the second question chosen for each answer of the first.
  function bound() {
    const naming = prepared(true);
    const start = { answers: {}, grade: given.grade, prior: 'uniform', tools: {} };
    const { shares } = name.weigh(naming, start);
    let [one, two] = [named(naming, start, shares), 0];
    for (const { asked, of } of questions(naming, start, shares)) {
      let sum = 0;
      for (let a = 0; a < of.columns; a++) {
        let all = 0;
        const after = new Float64Array(shares.length);
        for (let m = 0; m < shares.length; m++) all += after[m] = shares[m] * of.table[m * of.columns + a];
        if (!(all > 1e-9)) continue;
        for (let m = 0; m < shares.length; m++) after[m] /= all;
        const said = { choice: () => asked.values[a], date: () => String(naming.struck.years[a]), mint: () => naming.struck.mints[a] }[asked.kind];
        sum += all * Math.max(named(naming, { ...start, answers: { [asked.key]: said?.() ?? '?' } }, after), Math.max(...after) >= SURE ? Math.max(...after) : 0);
      }
      two = Math.max(two, sum);
    }
    return { one, two, least: 1 + (1 - one) + (1 - two) };
  }

  // Types that no question parts: shares still even when everything is answered as the type shows.
  function alike() {
    const naming = prepared(true);
    const found = [];
    naming.types.forEach((type, t) => {
      const state = { answers: {}, grade: given.grade, prior: 'uniform' };
      for (const { key } of naming.choices) if (type.shows[key]?.length && naming.asked.some((one) => one.key === key && one.seen <= naming.grade(given.grade))) state.answers[key] = type.shows[key][0];
      const i = naming.struck.from[t];
      if (naming.asked.some((one) => one.key === 'date' && one.seen <= naming.grade(given.grade))) state.answers.date = String(naming.struck.year[i]);
      if (name.weigh(naming, state).shares[t] < 0.6) found.push(t);
    });
    return found;
  }

  // Coins whose type is taken out of the catalogue: given another name for sure, called none of these, or left open.
  function strangers() {
    const naming = prepared(false);
    const found = { named: 0, none: 0, open: 0, asked: 0 };
    const { uniform } = naming.priors;
    for (let n = 0; n < given.coins; n++) {
      const t = Math.floor(draw() * naming.count);
      const i = issueOf(naming, t);
      naming.priors.uniform = uniform.map((share, m) => (m === t ? 1e-300 : share));
      const state = { answers: {}, grade: given.grade, prior: 'uniform', tools: {} };
      for (;; found.asked++) {
        const weighed = name.weigh(naming, state);
        const { question } = name.ask(naming, state, weighed.shares);
        if (!question) {
          found[weighed.none > weighed.top.p ? 'none' : weighed.top.p >= SURE ? 'named' : 'open']++;
          break;
        }
        state.answers[question.feature] = answer(naming, question, t, i);
      }
    }
    naming.priors.uniform = uniform;
    return found;
  }

  function times() {
    const naming = prepared(false);
    const took = [];
    for (let n = 0; n < given.coins; n++) {
      const t = Math.floor(draw() * naming.count);
      const i = issueOf(naming, t);
      const state = { answers: {}, grade: pick(['', 'VF-20', 'G-4']), prior: 'uniform', tools: {} };
      for (let asked = 0; asked < 12; asked++) {
        const began = performance.now();
        const { shares } = name.weigh(naming, state);
        const { question } = name.ask(naming, state, shares);
        took.push(performance.now() - began);
        if (!question) break;
        state.answers[question.feature] = answer(naming, question, t, i);
      }
    }
    return took;
  }

  function preparing() {
    const reference = unpacked(structuredClone(pack));
    const began = performance.now();
    name.prepare(reference);
    return performance.now() - began;
  }
  return { trial, bound, alike, strangers, times, preparing }[task]();
}
