"""The close of a show from the book: stock, cash, result, and what else a dealer wants to know. Inside `book.connected()`."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from ..money.lots import share
from ..shows.close import Bought, Close, Moved, Returned, Row, Sold, close
from ..shows.drawer import Compared
from ..shows.expected import Coin
from ..shows.reconcile import Reconciled
from ..shows.stories import DESK
from . import counting, devices, floor_cards, quick, reading, show_money
from .books import books
from .tables import Show

WAYS = ("cash", "check", "card", "transfer", "other", "")
CASH = {  # of the kinds of entry, as lines of the cash box
    "sale": "Sales", "ticket": "Sales", "return": "Refunds", "trade": "Boot of trades", "purchase": "Purchases",
    "expense": "Expenses", "income": "Other income", "owner_in": "Put in by the owner", "owner_out": "Taken out by the owner",
    "tax_paid": "Tax paid over", "transfer": "Transfers",
}  # fmt: skip


class SoldHere(NamedTuple):
    """A line of a sale or trade that stands: cents of price, own cost (None: unknown), costs of selling."""

    fact: str
    coin: str
    cents: int
    cost: int | None
    costs: int
    trade: bool

    @property
    def gain(self) -> int | None:
        return None if self.cost is None else self.cents - self.costs - self.cost


@dataclass(frozen=True)
class Done:
    """Everything that the close says. `counted`: the latest round, None where nobody counted; `ways`: (how, in, out)."""

    show: Show
    closed: str
    close: Close
    counted: Reconciled | None
    drawer: Compared | None
    sold: list[SoldHere]
    wants: list[dict]
    ways: list[tuple[str, int, int]]
    expenses: list[tuple[str, int]]
    spent: int

    @property
    def best(self) -> SoldHere | None:
        return max((one for one in self.sold if one.gain is not None), key=lambda one: (one.gain, one.coin), default=None)

    @property
    def worst(self) -> SoldHere | None:
        return min((one for one in self.sold if one.gain is not None), key=lambda one: (one.gain, one.coin), default=None)

    @property
    def left(self) -> int | None:
        """Of the budget."""
        return None if self.show.budget is None else self.show.budget - self.spent

    @property
    def open(self) -> int:
        """Differences that nobody explained: of the stock, and of the cash."""
        return len(self.counted.open if self.counted else ()) + self.cash_open

    @property
    def cash_open(self) -> bool:
        return bool(self.drawer and self.drawer.off) and cash_key(self.show.id) not in counting.settled()


def cash_key(show: str) -> str:
    """The key under which a difference of the cash is explained: it ends with the next count of the drawer."""
    found = show_money.drawer(show)
    return f"cash/{found['fact'] if found else show}"


def done(book, show: Show, day: str, clock: Callable[[int], str]) -> Done:
    """The close of a show as the book stands."""
    paid = show_money.paid(show.id, show.ends or show.starts)
    rounds = counting.rounds(show.id)
    counted = counting.reconciled(show.id, rounds[-1]["id"], day, clock) if rounds else None
    coins = counting.coins(show.id, set(), devices.names() | {"desk": DESK})
    drawer = show_money.drawer(show.id)
    sold = _sold(book, show.id)
    expected = (show.float or 0) + show_money.cash(paid)
    found = close(
        show.name or "A show",
        **_stock(show.id, coins, sold),
        cash_float=show.float or 0,
        sold=[Sold(one.cents, one.cost, one.costs, trade=one.trade, pieces=_left_with(coins, one)) for one in sold],
        returned=_returned(show.id),
        moved=[Moved(row.about or "Expense", row.cents, True, row.how) for row in paid if row.kind == "expense"],
        box=_box(paid),
        income=_income(paid),
        counted_pieces=counted.seen if counted else None,
        counted_cash=drawer["cents"] if drawer else None,
        missing=counted.missing if counted else 0,
    )  # fmt: skip
    wants = [one for one in reading.found_wants() if one["show"] == show.id]
    return Done(show, floor_cards.closed(show.id), found, counted, Compared(expected, drawer["cents"]) if drawer else None, sold,
                wants, _ways(paid), _expenses(paid), show_money.spent(paid))  # fmt: skip


def _left_with(coins: dict[str, Coin], one: SoldHere) -> int:
    """1 where the record left the case with this line; 0 for a part of a lot of which more is there."""
    coin = coins.get(one.coin)
    return int(coin is None or not coin.how or (coin.went is not None and coin.went.entry.fact == one.fact))


_BACK = "coalesce((select sum(r.{}) from move r where r.of = m.fact and r.coin = m.coin and r.live = m.live and r.step = 'return'), 0)"
_SOLD = (
    f"select m.fact, m.coin, m.cents, m.costs, m.state, m.pieces, {', '.join(map(_BACK.format, ('pieces', 'cents', 'costs')))} "
    "from move m left join deal d on d.fact = m.fact left join sale s on s.fact = m.fact and s.coin = m.coin "
    "where coalesce(d.show, s.show) = ? and m.step = ? and m.live = ? order by m.seq, m.coin"
)


def _sold(book, show: str) -> list[SoldHere]:
    """Lines of sales and trades that stand, each without the pieces that came back of it."""
    basis = _basis(book)
    return [
        SoldHere(fact, coin, cents - share(cents, pieces, back), basis.get((fact, coin), _owed(coin, pieces - back)), costs - share(costs, pieces, back), state == "traded")
        for fact, coin, cents, costs, state, pieces, back, *_ in quick.rows(_SOLD, show, "out", True) if back < pieces
    ]  # fmt: skip


def _returned(show: str) -> list[Returned]:
    """What came back of them: price less refund is kept; what the sale cost stays spent, and the return cost something, too."""
    return [
        Returned(share(cents, pieces, back) - refund, share(costs, pieces, back) + charges)
        for _, _, cents, costs, _, pieces, back, refund, charges in quick.rows(_SOLD, show, "out", True) if back
    ]  # fmt: skip


def _basis(book) -> dict[tuple[str, str], int | None]:
    """(entry, coin) → the cost of what left by it; None: unknown."""
    found: dict[tuple[str, str], int | None] = {}
    for each in books(book).books.gains():
        before = found.get((each.fact, each.coin), 0)
        found[each.fact, each.coin] = None if before is None or each.basis is None else before + each.basis
    return found


def _owed(coin: str, pieces: int) -> int | None:
    """Somebody's coin cost what its owner is to have; so many pieces of a lot, their share of it."""
    found = quick.row("select cents, pieces from move where coin = ? and step = ? and live = ? order by seq desc limit 1", coin, "theirs", True)
    return share(*found, pieces) if found and found[0] is not None else None


def _stock(show: str, coins: dict[str, Coin], sold: list[SoldHere]) -> dict:
    """Opening stock, what was bought, and what came or went otherwise, for `close`."""
    costs = dict(quick.rows("select id, coalesce(cost_left, 0) from coin where id in (select coin from packed where show = ?)", show))
    here = {(one.fact, one.coin) for one in sold}
    gone = {coin: sum(one.cost or 0 for one in sold if one.coin == coin) for coin in {one.coin for one in sold}}
    opening = [coin for coin in coins.values() if coin.how == "packed"]
    # A coin that is there, or went otherwise, counts at what it cost; one sold here at what was sold of it, and what is left.
    worth = {coin.id: gone.get(coin.id, 0) + (0 if coin.id in gone and coin.went else costs.get(coin.id, 0)) for coin in opening}
    others: dict[str, list[int]] = {}
    for coin in coins.values():
        if coin.how and coin.went and (coin.went.entry.fact, coin.id) not in here:
            name = OTHERWISE[coin.went.how]
            others.setdefault(name, []).append(-(worth.get(coin.id) or _cost(coin.id)))
    along = [coin for coin in gone if coin not in coins or not coins[coin].how]
    if along:
        others[ALONG] = [gone[coin] for coin in along]
    bought = [
        Bought(many, total or 0, trade=how == "trade")
        for how, many, total in quick.rows(
            "select p.how, count(*), sum(b.total) from bought b join purchase p on p.fact = b.purchase where p.show = ? group by p.fact, p.how",
            show)
    ]  # fmt: skip
    rows = [Row(name, len(amounts) * (1 if name == ALONG else -1), sum(amounts)) for name, amounts in sorted(others.items())]
    return {"opening_pieces": len(opening), "opening_cost": sum(worth.values()), "bought": bought, "others": rows}


ALONG = "Came along, though nobody packed it"
OTHERWISE = {"sold": "Sold elsewhere", "traded out": "Traded elsewhere", "sent": "Sent away", "lost": "Missing",
             "returned": "Back with its owner"}  # fmt: skip


def _cost(coin: str) -> int:
    return quick.row("select coalesce(cost, 0) from coin where id = ?", coin)[0]


def _box(paid: list[show_money.Paid]) -> list[Row]:
    """Cash by what it was for, in the order of CASH."""
    sums: dict[str, int] = {}
    for row in paid:
        if row.how == "cash":
            sums[CASH[row.kind]] = sums.get(CASH[row.kind], 0) + row.cents
    usual = {"Sales": 0, "Purchases": 0}
    return [Row(name, None, (usual | sums)[name]) for name in dict.fromkeys(CASH.values()) if name in usual | sums]


def _income(paid: list[show_money.Paid]) -> list[Row]:
    """What came in without a sale."""
    income = sum(row.cents for row in paid if row.kind == "income")
    return [Row("Other income", None, income)] if income else []


def _ways(paid: list[show_money.Paid]) -> list[tuple[str, int, int]]:
    """(how, came in, went out); "" for what nobody told."""
    sums = {how: [row.cents for row in paid if row.how == how] for how in WAYS}
    return [(how, sum(c for c in cents if c > 0), -sum(c for c in cents if c < 0)) for how, cents in sums.items() if cents]


def _expenses(paid: list[show_money.Paid]) -> list[tuple[str, int]]:
    sums: dict[str, int] = {}
    for row in paid:
        if row.kind == "expense":
            sums[row.about or "Not said"] = sums.get(row.about or "Not said", 0) - row.cents
    return sorted(sums.items(), key=lambda one: (-one[1], one[0]))
