"""Short ways to write the entries of a book for the tests of money: days as "2026-03-14", costs as price=…, fee=…."""

from datetime import date
from itertools import count

from exergue.money import events
from exergue.money.events import In, Out

_numbers = count(1)  # IDs sort as the entries came, as those of a book do


def day(text: str) -> date:
    return date.fromisoformat(text)


def head(when: str) -> dict:
    number = next(_numbers)
    return {"id": f"fact-{number:06}", "date": day(when), "order": number}


def lines(**costs: int) -> tuple[dict, ...]:
    return tuple({"what": what, "cents": cents} for what, cents in costs.items())


def paid(**payments: int) -> tuple[dict, ...]:
    return tuple({"how": how, "cents": cents} for how, cents in payments.items())


def bought(when: str, *coins: In | str, payments=(), foreign=None, payment="cash", **costs: int) -> events.Purchase:
    rows = tuple(In(coin) if isinstance(coin, str) else coin for coin in coins)
    return events.Purchase(**head(when), bought=rows, costs=lines(**costs), payments=payments, foreign=foreign, payment=payment)


def acquired(when: str, how: str, *coins: In) -> events.Acquired:
    return events.Acquired(**head(when), how=how, coins=coins)


def sold(when: str, *coins: Out | str, price: int | None, tax=0, place="", payments=(), payment="cash", **costs: int):
    rows = tuple(Out(coin) if isinstance(coin, str) else coin for coin in coins)
    return events.Ticket(
        **head(when), sold=rows, price=price, tax=tax, place=place, costs=lines(**costs), payments=payments, payment=payment
    )


def traded(when: str, out: tuple[Out, ...], into: tuple[In, ...], boot=0, payment="cash", **costs: int) -> events.Trade:
    return events.Trade(**head(when), out=out, into=into, boot=boot, costs=lines(**costs), payment=payment)


def returned(when: str, sale: events.Ticket, *coins: str, refund: int, tax=0, **costs: int) -> events.Return:
    return events.Return(**head(when), of=sale.id, coins=coins, refund=refund, tax=tax, costs=lines(**costs), payment="cash")


def moved(when: str, what: str, cents: int, how="cash", **more) -> events.Money:
    return events.Money(**head(when), what=what, cents=cents, how=how, **more)
