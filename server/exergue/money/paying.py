"""How what is due is paid, and money that moves without a coin."""

from collections.abc import Sequence

from . import cents
from .events import BadEntry, Money
from .ledger import add
from .owing import owe
from .shares import total


def settle(postings: dict[str, int], event, due: int, currency: str, costs: int = 0) -> None:
    """Post the cash of an event. `due`: above zero we receive it, below we pay it; `costs` are ours to pay besides.

    The event's payments come to what is due, or to what is left of it after the costs (the house that sold the coins kept
    them). Without payments all is of its one kind `payment`, "other" if that is not said. Raises BadEntry.
    """
    net, payments = due - costs, event.payments
    if not payments:
        if net:
            add(postings, f"cash:{event.payment or 'other'}", net)
        return
    paid = total(payments)
    if paid == abs(due):
        sign, rest = (1 if due >= 0 else -1), -costs
    elif paid == abs(net):
        sign, rest = (1 if net >= 0 else -1), 0
    else:
        after = f" ({cents.show(abs(net), currency)} after costs)" if costs else ""
        raise BadEntry(f"The payments come to {cents.show(paid, currency)}, and {cents.show(abs(due), currency)}{after} is due.")
    for line in payments:
        add(postings, f"cash:{line['how']}", sign * line["cents"])
    if rest:
        add(postings, f"cash:{payments[0]['how']}", rest)


def expenses(postings: dict[str, int], costs: Sequence[dict]) -> None:
    for line in costs:
        add(postings, f"expense:{line['what']}", line["cents"])


def tax_account(place: str) -> str:
    return f"sales tax:{place}" if place else "sales tax"


def money(books, event: Money) -> dict[str, int]:
    """The postings of a movement of money. Raises BadEntry."""
    cash, amount = f"cash:{event.how}", event.cents
    if event.what == "expense":
        return {"expense:general": amount, cash: -amount}
    if event.what == "income":
        return {"income:other": -amount, cash: amount}
    if event.what == "owner_in":
        return {"owner": -amount, cash: amount}
    if event.what == "owner_out":
        return {"owner": amount, cash: -amount}
    if event.what == "tax_paid":
        return {tax_account(event.place): amount, cash: -amount}
    if event.what == "transfer":
        if not event.to_how or event.to_how == event.how:
            raise BadEntry("Say from which kind of money to which other kind it is transferred.")
        return {f"cash:{event.to_how}": amount, cash: -amount}
    if event.what == "consignor":
        if not event.to:
            raise BadEntry("Say whose coins were sold that this payment is for.")
        postings = {cash: -amount}
        owe(books, postings, event, event.to, "paid", -amount)
        return postings
    raise BadEntry(f"“{event.what}” is no movement of money known here.")
