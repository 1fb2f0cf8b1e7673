// A refused entry that is put right in its form: what it said is filled in, and what is recorded stands in its place.
import { html, nothing } from './html.js';
import { icon } from './icons.js';
import { coinValues } from './coin-fields.js';
import { holds } from './deal-said.js';

const KEY = 'exergue.mending'; // survives a reload of the form, not the tab
const within = (table, names) => Object.keys(table).every((name) => names.includes(name));

const one = (rows = []) => rows.length < 2;

// kind → the address of the form of this entry's first coin, or null where the form has no place for all that it says
const MOVES = {
  cost: ({ coins, costs, payments }) => (costs.length < 3 && costs.every((line) => LATER.includes(line.what)) && one(payments) && coins.every((row) => within(row, ['coin']))
    ? `/c/${coins[0].coin}/cost` : null),
  away: ({ coins }) => `/c/${coins[0]}/away`,
  back: ({ coins }) => `/c/${coins[0]}/back`,
  memo: ({ coins }) => `/c/${coins[0].coin}/memo`,
  return: ({ of, coins, payments, costs = [] }) => (coins && one(payments) && within(Object.fromEntries(costs.map((line) => [line.what, 1])), ['shipping', 'other']) && new Set(costs.map((line) => line.what)).size === costs.length
    ? `/c/${coins[0]}/return/${of}` : null),
  lost: ({ coin }) => `/c/${coin}/lost`,
  withdrawn: ({ coins }) => `/c/${coins[0]}/held`,
};
const LATER = ['grading', 'shipping', 'insurance', 'other'];

const memoIn = ({ coins }, known) => memoOf(coins[0], coins, known);
const memoOf = (row, coins, known) => (coins.every((each) => within(each.set ?? {}, [...Object.keys(coinValues()), 'pieces'])) && (known || Object.keys(row.set ?? {}).length)
  ? `/c/${row.coin}/memo-in` : null);

// Whether the form of one coin's purchase holds all that the entry says.
const alone = ({ bought: [row, ...others], costs, payments, foreign, receipt }) => !others.length && !payments && !foreign && !receipt
  && within(row, ['coin', 'set']) && within(row.set, Object.keys(coinValues())) && costs.length > 0 && costs.every(({ what }) => BOUGHT.includes(what));
const BOUGHT = ['price', 'fee', 'tax', 'shipping'];

const LISTS = { want: '/wants', sighting: '/seen', contact: '/contacts' };

// Records of lists: added, or changed; one that was to be taken off the list has no form.
function listed(kind, body) {
  const [what, how] = kind.split('.');
  return how === 'add' ? `${LISTS[what]}/new` : how === 'edit' ? `${LISTS[what]}/${body[what]}/edit` : null;
}

// The address of the form that holds all that this entry says, or null. `known`: its coin is on this phone.
export function formOf({ kind, body }, known) {
  if (kind === 'purchase' && alone(body)) return `/c/${body.bought[0].coin}/buy`;
  if (['purchase', 'ticket', 'trade'].includes(kind)) return holds({ kind, body }) ? '/deal' : null;
  if (kind === 'memo' && body.way === 'in') return memoIn(body, known);
  if (LISTS[kind.split('.')[0]]) return listed(kind, body);
  if (!known) return null;
  if (kind === 'note') return `/c/${body.coin}/note`;
  if (kind === 'sale') return holds({ kind, body }) ? `/c/${body.coin}/sell` : null;
  if (MOVES[kind]) return MOVES[kind](body);
  if (kind !== 'coin.edit') return null;
  return within(body.set, ['place']) ? `/c/${body.coin}/move` : within(body.set, ['ask', 'floor']) ? `/c/${body.coin}/price` : null;
}

export function begin(ui, fact, path) {
  sessionStorage.setItem(KEY, JSON.stringify({ id: fact.id, path }));
  ui.go(path);
}

// The refused entry that the form at this address was opened for, as engine.entries() has it, or null.
export async function mended(ui) {
  const { id, path } = JSON.parse(sessionStorage.getItem(KEY)) ?? {};
  if (path !== location.pathname) return null;
  return (await ui.engine.entries()).find(({ fact, state }) => fact.id === id && state === 'refused') ?? null;
}

// `made` was recorded in the place of `entry`, if there is one.
export async function inPlace(ui, entry, made) {
  leaveOff();
  if (!entry) return;
  await ui.engine.replace(entry.fact.id, made.id);
}

export const leaveOff = () => sessionStorage.removeItem(KEY);

export const whyRefused = (entry) => (entry ? html`<div class="callout warn">${icon('warn')}<p><b>Refused by the desk.</b> ${entry.verdict.message}
  Put it right here: what you record stands in its place.</p></div>` : nothing);
