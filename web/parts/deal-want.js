// The want that a coin of a deal is to fill: offered by the coin's type, with what departs from it.
import { departures, fills, offered, servedBy } from './wanted.js';

/** `row` as readDeal has it; `come` all that come in, so that no want is offered twice; `choose(coin, want or null)`. */
export function wantBeside(ui, row, { come, wants, choose }) {
  const { engine } = ui;
  const { id, about, want } = row;
  if (!want) {
    const taken = new Set(come.map((one) => one.want?.id));
    return servedBy(wants, about ?? {}).filter((one) => !taken.has(one.id)).map((one) => offered(one, () => choose(id, one)));
  }
  const is = { type: about?.type, year: about?.year ?? null, grade: about?.grade ?? '', cents: row.landed ?? row.price ?? 0 };
  return fills(want, departures(want, is, engine.reference.grades, engine.state.currency), engine.state.currency, () => choose(id, null), ui);
}
