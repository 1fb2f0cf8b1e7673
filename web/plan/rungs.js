// The ladder of grades as a plan needs it, from the reference's `grades`: numbers, and the rungs of a slot's window.

/** {number, read, fit, window, written}: what collecting/filling.py and slots.py say of grades. A slot's window has both ends in it. */
export function makeRungs({ steps = [], strikes = [] }) {
  const usual = steps.flatMap((step) => step.numbers).sort((a, b) => a - b);
  const stepOf = new Map(steps.flatMap((step) => step.numbers.map((number) => [number, step.key])));
  const bare = new Map([...steps.map((step) => [step.key, step.numbers[0]]), ...strikes.map((one) => [one.key, one.from])]);
  const every = steps.flatMap((step) => [...step.numbers, ...step.also]).sort((a, b) => a - b);
  const top = every.at(-1);
  const place = new Map(every.map((each, at) => [each, at]));

  /** The number that counts of a written grade, the net grade's where there is one; `empty` (the top) where none is written. */
  function number(text, empty = top) {
    if (!text) return empty;
    const said = text.replace(/\([^()]*\)/, ''); // without the problem, whose words are free
    const [, prefix, digits] = /^([A-Z]+)(?:-(\d+))?/.exec(said.split(' net ')[1] ?? said) ?? [];
    return digits ? Number(digits) : bare.get(prefix) ?? empty;
  }

  /** {prefix, number, trouble: details or a net grade, plus} of a written grade. */
  function read(text) {
    const bare = text.replace(/\([^()]*\)/, '');
    const [, prefix = '', , plus] = /^([A-Z]+)(?:-(\d+))?(\+)?/.exec(bare) ?? [];
    return { prefix, number: number(text), trouble: / (Details|net)\b/.test(bare), plus: Boolean(plus) };
  }

  /** How well a grade fits where any of a window serves: higher on the ladder, then without a problem, then with a plus; 0 for none. */
  function fit(text) {
    if (!text) return 0;
    const found = read(text);
    return 4 * (1 + (place.get(found.number) ?? 0)) + 2 * !found.trouble + found.plus;
  }

  /** The numbers of the usual grades in the window, lowest first. */
  function window(slot) {
    const [low, high] = [number(slot.grade_from, 1), number(slot.grade_to)];
    return usual.filter((rung) => low <= rung && rung <= high);
  }

  /** A rung's number as a grade of what the slot asks for. */
  const written = (slot, rung) => `${slot.strike === 'proof' ? 'PF' : stepOf.get(rung)}-${rung}`;

  return { number, read, fit, window, written };
}
