"""A buyer gives coins back."""

from ...money import lots, shares
from .. import quick
from ..tables import Coin, Deal, Fact, Sale, Voided
from ..verdicts import REFUSED, Refused
from . import dating, paid, standing
from .entry import Entry, Outcome


def give_back(entry: Entry) -> Outcome:
    body = entry.body
    lines = [(line, Coin.get_by_id(line.coin_id)) for line in _lines(entry)]
    out = {coin.id: standing.of(coin).out.get(body["of"], 0) for _, coin in lines}
    if body.get("coins") is None:
        lines = [(line, coin) for line, coin in lines if out[coin.id]]
    if not lines or not all(out[coin.id] for _, coin in lines):
        raise Refused("returned_already", "This was already returned; nothing of it is left to give back.")
    back = _pieces(body, out)
    prices = [lots.some(line.price, line.pieces, line.pieces - out[coin.id], back[coin.id]) for line, coin in lines]
    tax = body.get("tax") or 0
    if body["refund"] > sum(prices):
        raise Refused("refund_too_high", "The refund is at most what the coins were sold for; enter what goes beyond as a cost.")
    charged = quick.row("select tax from deal where fact = ?", body["of"])
    _check_tax(tax, charged[0] if charged else None)
    ways = paid.payments(body, body["refund"] + tax, "refund and tax" if tax else "the refund")
    parts = paid.divide(body["refund"], prices if any(prices) else [1] * len(prices))
    costs = body.get("costs") or []
    spread = paid.spread(costs, prices if any(prices) else [1] * len(prices))
    dating.after(entry, body["date"], [coin.id for _, coin in lines])
    quick.insert(
        Deal, fact=entry.id, kind="return", date=body["date"], party=lines[0][0].party, show=lines[0][0].show,
        cents=body["refund"], tax={"cents": tax} if tax else None, costs=costs, payments=ways, note=entry.text("note"),
    )  # fmt: skip
    for (_, coin), share, charges in zip(lines, parts, spread, strict=True):
        standing.step(entry, entry.id, coin, "return", of=body["of"], pieces=back[coin.id], cents=share,
                      costs=shares.total(charges))  # fmt: skip
    return dating.told(entry, body["date"], [coin.id for _, coin in lines])


def _pieces(body: dict, out: dict[str, int]) -> dict[str, int]:
    """How many pieces of each coin come back: all that are out by the sale, or as many as are given of the one coin named."""
    if body.get("pieces") is None:
        return out
    if len(body.get("coins") or []) != 1:
        raise Refused("bad_body", "pieces is about one coin; name that coin, or leave the pieces out.")
    (coin,) = body["coins"]
    if body["pieces"] > out[coin]:
        raise Refused("too_many", f"Of this lot {out[coin]} {'is' if out[coin] == 1 else 'are'} out by that sale; give that many at most.")
    return {coin: body["pieces"]}


def _lines(entry: Entry) -> list[Sale]:
    """The lines of the sale that come back."""
    of, asked = entry.body["of"], entry.body.get("coins")
    target = Fact.get_or_none(Fact.id == of, Fact.seq < entry.seq)
    if target is None or target.kind not in ("sale", "ticket") or target.verdict == REFUSED:
        raise Refused("no_such_sale", "The book has no such sale; name the sale or ticket by which the coins went.")
    if Voided.get_or_none(Voided.fact == of):
        raise Refused("no_such_sale", "This sale was undone, so nothing of it comes back.")
    lines = list(Sale.select().where(Sale.fact == of).order_by(Sale.coin))
    if asked is not None:
        lines = [line for line in lines if line.coin_id in asked]
        if len(lines) < len(asked):
            raise Refused("not_sold_so", "A coin of this return was not in that sale; name coins that it sold.")
        if not all(line.live for line in lines):
            raise Refused("not_sold_so", "The sale of a coin of this return does not stand; decide that under Needs a look first.")
    return [line for line in lines if line.live]


def _check_tax(tax: int, charged: str | None) -> None:
    """Refused, and not with the amount: a helper enters returns, too, and is not told the price of another's sale."""
    most = (Deal.tax.python_value(charged) or {}).get("cents", 0)
    if tax > most:
        raise Refused("tax_too_high", "That is more sales tax than the sale had; give back that much at most.")


FOLDS = {"return": give_back}
