"""Random histories of a small book for the tests of money: few coins, so that entries meet."""

import random
from datetime import date, timedelta

from hypothesis import strategies as st

from exergue.money import events
from exergue.money.events import In, Lent, Out

COINS = [f"COIN{n}" for n in range(8)]
DAY = date(2026, 1, 1)
HOWS = ("cash", "check", "card")
OWNERS = ("Ada", "Bert")

KINDS = ["purchase"] * 4 + ["ticket"] * 5 + ["trade"] * 3 + ["return"] * 2 + ["acquired"] * 2 + [
    "cost", "memo", "memo", "away", "back", "lost", "withdrawn", "money"]  # fmt: skip

# (what the dice show, how many entries are tried)
HISTORIES = st.tuples(st.integers(0, 2**40), st.integers(1, 45))


def line(what, cents):
    return {"what": what, "cents": cents}


def costs(draw):
    return draw.choice([(), (line("fee", draw.randrange(3_000)), line("shipping", draw.randrange(900)))])


def make(n: int, draw: random.Random, books, before: list) -> events.Event:
    """The n-th entry: mostly one that can be, as the books stand. `before`: those that were taken."""
    ours = [each.coin for each in books.stock()]
    others = sorted(books.others)
    rest = [coin for coin in COINS if coin not in ours]

    def some(*pools):
        pool = COINS if draw.random() < 0.06 else next((pool for pool in pools if pool), COINS)
        return draw.sample(sorted(pool), draw.randint(1, min(3, len(pool))))

    def out(coin, **more):
        if coin not in ours:
            return Out(coin, **more)
        unit = draw.choice(books.records[coin].units)
        if draw.random() < 0.4:
            return Out(coin, draw.randint(1, unit.pieces), of=unit.fact, **more)
        return Out(coin, draw.choice([None, 1, unit.pieces]), **more)

    kind, amount = draw.choice(KINDS), draw.randrange(100_000)
    late = draw.random() < 0.1
    head = {"id": f"e{n}", "date": DAY + timedelta(days=25 * n - (draw.randrange(120) if late else 0)), "order": n}
    lots = [coin for coin in ours if books.records[coin].lot]
    if kind == "purchase":
        into = some(draw.choice([rest, others, lots]), rest)
        bought = tuple(In(coin, draw.choice([1, 3, 20]), held=draw.choice([None, None, *events.HELD])) for coin in into)
        paid = (line("price", amount), *costs(draw)) if draw.random() < 0.9 else ()
        whole = sum(each["cents"] for each in paid)
        parts = ({"how": "cash", "cents": whole // 3}, {"how": "card", "cents": whole - whole // 3})
        return events.Purchase(**head, bought=bought, costs=paid, payments=parts if paid else ())
    if kind == "acquired":
        how = draw.choice(["opening", "inherited", "gift", "gift", "found", "entered"])
        rows = tuple(In(
            coin, draw.choice([1, 1, 4]), value=None if how in ("opening", "gift", "entered") and draw.random() < 0.3 else amount,
            basis=draw.choice([None, 20_000, amount]), since=draw.choice([None, head["date"] - timedelta(days=300)]),
            paid=draw.choice([0, 0, 9_000]) if how == "gift" else 0,
        ) for coin in some(rest))  # fmt: skip
        return events.Acquired(**head, how=how, coins=rows)
    if kind == "cost":
        coins = tuple(Out(coin) for coin in some(ours))
        return events.Cost(**head, coins=coins, costs=(line("grading", amount // 9), line("other", 7)))
    if kind == "ticket":
        sold = tuple(out(coin) for coin in some(ours + others))
        tax, how = draw.randrange(900), draw.choice(HOWS)
        return events.Ticket(**head, sold=sold, price=amount, tax=tax, costs=costs(draw), payment=how)
    if kind == "return":
        sales = [each for each in before if isinstance(each, events.Ticket)]
        if not sales:
            return events.Return(**head, of="none")
        sale = draw.choice(sales[-3:])
        if draw.random() < 0.4:
            return events.Return(**head, of=sale.id, coins=(draw.choice(sale.sold).coin,), costs=costs(draw))
        return events.Return(**head, of=sale.id, refund=sale.price // draw.choice([1, 2]), tax=draw.choice([0, sale.tax]))
    if kind == "trade":
        gone, into = some(ours), some(rest)
        given = [draw.randrange(50_000) for _ in gone]
        boot = draw.randint(-20_000, sum(given))
        got = [(sum(given) - boot) // len(into)] * len(into)
        got[0] += sum(given) - boot - sum(got)
        return events.Trade(**head, out=tuple(out(coin, value=value) for coin, value in zip(gone, given, strict=True)), boot=boot,
                            into=tuple(In(coin, draw.choice([1, 6]), value=value) for coin, value in zip(into, got, strict=True)),
                            costs=costs(draw))  # fmt: skip
    if kind == "memo":
        way = draw.choice(["in", "out"])
        lent = tuple(Lent(coin, draw.choice([amount // 2, amount])) for coin in some(rest if way == "in" else ours))
        return events.Memo(**head, way=way, kind=draw.choice(["memo", "consignment"]), coins=lent, with_=draw.choice(OWNERS))
    if kind == "away":
        return events.Away(**head, coins=tuple(some(ours)), why=draw.choice(["grading", "display"]))
    if kind == "back":
        elsewhere = [coin for coin, record in books.records.items() if record.state not in ("in stock", "sold", "traded")]
        return events.Back(**head, coins=tuple(some(draw.choice([elsewhere, others]), elsewhere, [*books.lost_of_others])[:1]))
    if kind == "lost":
        gone = out(some(ours + others)[0])
        how = draw.choice(["missing", "lost", "stolen", "destroyed"])
        return events.Lost(**head, coin=gone.coin, pieces=gone.pieces, of=gone.of, how=how, reimbursed=draw.choice([0, amount]))
    if kind == "withdrawn":
        return events.Withdrawn(**head, coins=tuple(some(ours)[:1]), to=draw.choice(events.HELD))
    what = draw.choice(["expense", "income", "owner_in", "owner_out", "tax_paid", "transfer", "consignor"])
    return events.Money(**head, what=what, cents=amount, how=draw.choice(HOWS), to_how="other", to=draw.choice(OWNERS))


def play(books, history: tuple) -> list:
    """Take what the dice bring; the events that were taken. What cannot be is left out."""
    dice, count = history
    draw, taken = random.Random(dice), []
    for n in range(count):
        event = make(n, draw, books, taken)
        try:
            books.take(event)
        except events.BadEntry as told:
            assert str(told).endswith(".") and len(str(told)) > 20
        else:
            taken.append(event)
    return taken


def picture(books) -> dict:
    """All that the books answer."""
    return {
        "stock": books.stock(),
        "gains": [(g.fact, g.coin, g.pieces, g.acquired, g.disposed, g.proceeds, g.basis, g.gain, g.term, g.held, g.why, g.note)
                  for g in books.gains()],
        "costs": {coin: books.cost_of(coin) for coin in sorted(books.records)},
        "others": sorted(books.held_for_others(), key=lambda each: each.coin),
        "out": sorted(books.out(), key=lambda each: each.coin),
        "due": {owner: cents for owner, cents in sorted(books.due.items()) if cents},
        "balances": books.ledger.balances(),
        "entries": books.ledger.entries(),
    }  # fmt: skip
