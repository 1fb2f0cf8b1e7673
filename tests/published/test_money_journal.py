"""The journal against beancount (a general double-entry library): it takes every entry, and comes to the same balances."""

import random
from decimal import Decimal

from beancount import loader
from beancount.core import data
from support.histories import play

from exergue.money.books import Books

KINDS = {"cash": "Assets", "coins": "Assets", "due to consignors": "Liabilities", "sales tax": "Liabilities", "owner": "Equity",
         "sales": "Income", "sales returns": "Income", "gains": "Income", "income": "Income", "cost of sales": "Expenses",
         "expense": "Expenses"}  # fmt: skip


def spelled(account: str, book: int) -> str:
    """Our account in beancount's spelling."""
    words = account.replace(",", "").replace(" ", "-").split(":")
    return ":".join([KINDS[account.split(":")[0]], f"Book{book}", *(word.capitalize() for word in words)])


def test_every_entry_balances_for_beancount_and_so_do_the_accounts():
    draw = random.Random(1857)
    books, text, expected = [], [], {}
    for n in range(150):
        one = Books()
        play(one, (draw.randrange(2**40), 45))
        books.append(one)
        for entry in one.ledger.entries():
            text.append(f'{max(entry.date.isoformat(), "1000-01-01")} * "{entry.about}"')
            text += [f"  {spelled(account, n)}  {Decimal(cents) / 100:.2f} USD" for account, cents in entry.postings]
        expected |= {spelled(account, n): cents for account, cents in one.ledger.balances().items()}
        names = {account for entry in one.ledger.entries() for account, _ in entry.postings}
        text += [f"0999-01-01 open {spelled(account, n)}" for account in sorted(names)]
    entries, errors, _ = loader.load_string("\n".join(text))
    assert errors == []
    sums: dict[str, int] = {}
    for entry in entries:
        if isinstance(entry, data.Transaction):
            for posting in entry.postings:
                sums[posting.account] = sums.get(posting.account, 0) + int(posting.units.number * 100)
    assert {account: cents for account, cents in sums.items() if cents} == expected
    assert len(expected) > 1000
