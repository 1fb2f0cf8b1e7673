"""Events from facts, as the journal holds them: the shapes of records/kinds.toml."""

from collections.abc import Iterable, Mapping
from datetime import date

from . import events
from .events import Event, Foreign, In, Lent, Out


def event(fact: Mapping, order: int) -> Event | None:
    """The event of a fact {id, kind, body}; None for a kind that moves neither coins nor money. `order`: its place in the book.

    Facts that were refused, or that wait for a decision, are not for the books.
    """
    read = READS.get(fact["kind"])
    if read is None:
        return None
    body = fact["body"]
    when = date.fromisoformat(body["date"]) if body.get("date") else date.min
    return read(body, {"id": fact["id"], "date": when, "order": order})


def _in(row: Mapping) -> In:
    coin = row.get("set") or {}
    since = row.get("since")
    return In(
        row["coin"], row.get("pieces") or coin.get("pieces"), row.get("weight"), row.get("value"), row.get("basis"),
        date.fromisoformat(since) if since else None, row.get("gift_tax") or 0, row.get("paid") or 0, coin.get("held") or None,
        bool(row.get("more")), _settled(row),
    )  # fmt: skip


def _out(row: Mapping) -> Out:
    return Out(row["coin"], row.get("pieces"), row.get("weight"), row.get("price"), row.get("value"), row.get("of"), _settled(row))


def _settled(row: Mapping) -> tuple[dict, ...] | None:
    return None if row.get("costs") is None else tuple(row["costs"])


def _ins(rows: Iterable[Mapping]) -> tuple[In, ...]:
    return tuple(_in(row) for row in rows)


def _outs(rows: Iterable[Mapping]) -> tuple[Out, ...]:
    return tuple(_out(row) for row in rows)


def _paid(body: Mapping) -> dict:
    return {"payments": tuple(body.get("payments") or ()), "payment": body.get("payment")}


def _costs(body: Mapping) -> tuple[dict, ...]:
    return tuple(body.get("costs") or ())


def _purchase(body, head):
    foreign = body.get("foreign")
    return events.Purchase(
        **head, **_paid(body), bought=_ins(body["bought"]), costs=_costs(body),
        foreign=Foreign(foreign["currency"], foreign["cents"], foreign["rate"]) if foreign else None,
    )  # fmt: skip


def _acquired(body, head):
    return events.Acquired(**head, **_paid(body), how=body["how"], coins=_ins(body["coins"]))


def _entered(body, head):
    """A coin put in the book alone: nobody said when it came, so it was there before all else."""
    return events.Acquired(**head, how="entered", coins=(_in(body),))


def _cost(body, head):
    return events.Cost(**head, **_paid(body), coins=_outs(body["coins"]), costs=_costs(body))


def _sale(body, head):
    return events.Ticket(**head, **_paid(body), sold=(Out(body["coin"]),), price=body["price"], costs=_costs(body))


def _ticket(body, head):
    tax = body.get("tax") or {}
    return events.Ticket(
        **head, **_paid(body), sold=_outs(body["sold"]), price=body["price"], costs=_costs(body),
        tax=tax.get("cents") or 0, place=tax.get("place") or "",
    )  # fmt: skip


def _return(body, head):
    return events.Return(
        **head, **_paid(body), of=body["of"], coins=tuple(body.get("coins") or ()), costs=_costs(body),
        refund=body.get("refund") or 0, tax=body.get("tax") or 0, pieces=body.get("pieces"),
    )  # fmt: skip


def _trade(body, head):
    return events.Trade(
        **head, **_paid(body), out=_outs(body["out"]), into=_ins(body["in"]), boot=body.get("boot") or 0, costs=_costs(body),
        waiting=body.get("waiting") or 0,
    )  # fmt: skip


def _memo(body, head):
    due = body.get("due")
    return events.Memo(
        **head, way=body["way"], kind=body["kind"], with_=body.get("with") or "",
        due=date.fromisoformat(due) if due else None,
        coins=tuple(Lent(row["coin"], row.get("net"), row.get("pieces") or 1) for row in body["coins"]),
    )  # fmt: skip


def _away(body, head):
    return events.Away(**head, coins=tuple(body["coins"]), why=body.get("why") or "other", with_=body.get("with") or "")


def _back(body, head):
    return events.Back(**head, coins=tuple(body["coins"]))


def _lost(body, head):
    return events.Lost(
        **head, coin=body["coin"], pieces=body.get("pieces"), of=body.get("of"), how=body["how"],
        reimbursed=body.get("reimbursed") or 0, payment=body.get("payment"),
    )  # fmt: skip


def _withdrawn(body, head):
    return events.Withdrawn(**head, coins=tuple(body["coins"]), to=body["to"])


def _money(body, head):
    return events.Money(
        **head, what=body["what"], cents=body["cents"], how=body.get("how") or "other", to_how=body.get("to_how"),
        to=body.get("to") or "", place=body.get("place") or "", about=body.get("about") or "",
    )  # fmt: skip


def _void(body, head):
    return events.Void(**head, of=body["of"])


READS = {
    "purchase": _purchase, "acquired": _acquired, "coin.add": _entered, "cost": _cost, "sale": _sale, "ticket": _ticket,
    "return": _return, "trade": _trade, "memo": _memo, "away": _away, "back": _back, "lost": _lost, "withdrawn": _withdrawn,
    "money": _money, "void": _void,
}  # fmt: skip
