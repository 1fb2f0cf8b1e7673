// What the other party may have in writing of a deal: made of the entry itself, in which no cost and no floor stands.
import { split } from './allocate.js';

const sum = (rows) => rows.reduce((all, { cents }) => all + cents, 0);

/**
 * {title, head: [text], rows: [{words, more, cents}], last: {words, cents}, foot: [text]} of a sale, ticket, purchase or trade.
 * `say`: {name(id, set), id(id), money(cents, currency?), date(iso), way(how), show, book}. A row without cents is a heading or a line of words.
 * Of a purchase only the price is told: how it is shared over the coins and what was paid besides is not the seller's to know.
 */
export function receipt({ kind, body }, say) {
  const line = (row, cents) => ({ words: say.name(row.coin, row.set), more: [say.id(row.coin), row.pieces > 1 ? `${row.pieces} pieces` : ''].filter(Boolean).join(', '), cents });
  const party = { sale: ['Sold to', body.to], ticket: ['Sold to', body.to], purchase: ['Bought from', body.from], trade: ['Traded with', body.with] }[kind];
  const head = [say.book, [say.date(body.date), say.show].filter(Boolean).join(', '), party[1] ? `${party[0]} ${party[1]}` : ''].filter(Boolean);
  const paid = (body.payments ?? []).filter(({ cents }) => cents).map(({ how, cents }) => `Paid, ${say.way(how).toLowerCase()}: ${say.money(cents)}`);
  const made = (title, rows, last, foot) => ({ title, head, rows, last, foot });
  return { sale, ticket, purchase, trade }[kind]();

  function sale() {
    return made('Receipt', [line(body, body.price)], { words: 'Total', cents: body.price }, [`Paid, ${say.way(body.payment ?? 'other').toLowerCase()}`]);
  }

  function ticket() {
    const { sold, price, discount = 0, tax, exempt } = body;
    const prices = sold.length === 1 ? [price] : sold[0].price === undefined ? split(price, sold.map(({ weight }) => weight ?? 1)) : sold.map((row) => row.price);
    const rows = sold.map((row, at) => line(row, prices?.[at]));
    if (discount) rows.push({ words: `A discount of ${say.money(discount)} is taken off already` });
    if (tax) rows.push({ words: `Sales tax, ${tax.rate ?? ''} %${tax.place ? `, ${tax.place}` : ''}`, cents: tax.cents });
    if (exempt) rows.push({ words: `No sales tax: ${exempt.reason}${exempt.certificate ? `, certificate ${exempt.certificate}` : ''}` });
    return made('Receipt', rows, { words: 'Total', cents: price + (tax?.cents ?? 0) }, paid);
  }

  function purchase() {
    const price = sum(body.costs.filter(({ what }) => what === 'price'));
    const alone = body.costs.every(({ what }) => what === 'price');
    const one = body.payment ? [`Paid, ${say.way(body.payment).toLowerCase()}`] : [];
    const { foreign } = body;
    const abroad = foreign ? [{ words: `Paid as ${say.money(foreign.cents, foreign.currency)} at ${foreign.rate}` }] : [];
    return made('Purchase slip', [...body.bought.map((row) => line(row)), ...abroad], { words: 'Price', cents: price }, alone ? (paid.length ? paid : one) : []);
  }

  function trade() {
    const [out, come] = [body.out.map((row) => line(row, row.value)), body.in.map((row) => line(row, row.value))];
    const { boot } = body;
    const last = boot ? { words: boot > 0 ? `${say.book} receives` : `${say.book} pays`, cents: Math.abs(boot) } : { words: 'Even, without money' };
    return made('Trade', [{ words: `${say.book} gives` }, ...out, { words: `${say.book} gets` }, ...come], last, paid);
  }
}

/** The same as plain text, for a message. */
export function asText({ title, head, rows, last, foot }, money) {
  const row = ({ words, more, cents }) => `${words}${more ? ` (${more})` : ''}${cents === undefined ? '' : `: ${money(cents)}`}`;
  return [title, ...head, '', ...rows.map(row), row(last), ...foot].join('\n');
}
