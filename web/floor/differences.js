// The differences of a count: as the desk tells them where this phone is in step with it, else as far as this phone knows.
import * as floor from '../engine/at-show.js';
import { showTime, today } from '../parts/dates.js';
import { reconcile } from './reconcile.js';

const PARTIAL = { sure: false };

/**
 * {round, expected, seen, missing, unexpected, differences, sure, said}: `sure` says that it is the desk's own list, `said` its last answer.
 * `show` is null for the whole stock; null where nobody counted. `asking`: whether the desk is asked now.
 */
export async function differencesOf(engine, show, asking) {
  const rounds = await floor.rounds(show);
  const said = (asking && await floor.askDesk(show).catch(() => null)) || await floor.saidBefore(show);
  const { state } = engine;
  const fresh = Boolean(said) && said.made >= (state.lastSync ?? 0) && !state.waiting;
  const round = rounds.at(-1)?.id ?? said?.count?.round;
  if (!round) return { round: null, differences: [], ...PARTIAL, said, fresh };
  const local = await ofPhone(engine, show, round, said);
  const desk = said?.count?.round === round ? said.count : null;
  if (fresh && desk) return { ...desk, sure: true, said, fresh };
  const told = new Map((desk?.differences ?? []).map((one) => [one.key, one]));
  const differences = local.differences.map((one) => {
    const better = told.get(one.key);
    return better && !one.explained ? { ...better, settled: one.settled, open: one.open && better.open } : one;
  });
  return { round, ...local, differences, ...PARTIAL, said, fresh };
}

/** As far as this phone knows by itself. */
export async function ofPhone(engine, show, round, said) {
  const [coins, scans, blanks] = await Promise.all([floor.expected(show), floor.scansOf(round), engine.list('blank')]);
  const known = new Map(coins);
  for (const id of scans.keys()) {
    if (known.has(id)) continue;
    const card = await engine.card('coin', id);
    if (card) known.set(id, { card, how: '', box: '', here: floor.isHere(card), due: false });
  }
  const before = (said?.count?.differences ?? []).filter((one) => one.settled !== null).map((one) => [one.key, one.settled]);
  return reconcile(known, scans, {
    round, show, day: today(), clock: showTime, blanks: new Set(blanks.map((one) => one.id)), settled: new Map([...before, ...floor.explained()]),
    who: (by) => (by === engine.state.device.id ? 'this phone' : by === 'desk' ? 'the desk' : 'another phone'),
  });
}
