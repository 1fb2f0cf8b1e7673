"""Reports for the preparer: gains of a year, sales tax by place, cash over the limit."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from ...money import cashreport, salestax, taxreport
from ...reports import cash as cash_report
from ...reports import gains as gains_report
from ...reports import sales_tax as sales_tax_report
from ...reports.model import Report
from .named import coins, named

NO_TAX = "No tax taken, no certificate noted"
DOLLARS = "The limit is one of United States dollars, and this book is kept in another currency: nothing was looked at."


def gains(book, account, asked) -> Report:
    words = coins()
    left = [_disposal(named(words, each.coin), each) for each in account.books.gains() if asked.first <= each.disposed <= asked.last]
    return gains_report.report(taxreport.tax_year(left, asked.first.year))


def _disposal(coin, each) -> taxreport.Disposal:
    """What left, as the form asks for it. Held since a day that nobody knows: short, the dearer of the two."""
    basis, gift = each.part.basis()
    lot = f", {each.pieces} pieces" if each.pieces > 1 else ""
    how = "" if each.why == "sold" else f" ({each.why})"
    acquired = taxreport.INHERITED if each.part.how == "inherited" else each.acquired or taxreport.VARIOUS
    return taxreport.Disposal(coin.said + lot + how, coin.id, acquired, each.disposed, each.proceeds, basis, each.held,
                              each.term or "short", gift)  # fmt: skip


def _taken(account, *kinds: str) -> Iterator:
    """Entries of these kinds that stand in the accounts, each with its day."""
    for event in account.events.values():
        if event.kind in kinds and event.id in account.books.taken:
            yield event, date.fromisoformat(event.day)


def sales_tax(book, account, asked) -> Report:
    found = []
    for event, day in _taken(account, "sale", "ticket"):
        tax = event.body.get("tax") or {}
        found.append(_taxed(event, day, sum(line.price for line in account.books.sales[event.id].lines), tax.get("cents") or 0))
    for event, day in _taken(account, "return"):
        sale = account.events.get(event.body["of"])
        if sale is not None:
            found.append(_taxed(sale, day, -event.body["refund"], -event.body["tax"]))
    return sales_tax_report.report(found, asked.first, asked.last)


def _taxed(sale, day: date, net: int, cents: int) -> salestax.Taxed:
    tax, free = sale.body.get("tax") or {}, sale.body.get("exempt")
    exempt = salestax.Exempt(free.get("certificate", ""), free.get("reason", "")) if free else None
    place = tax.get("place") or (NO_TAX if not tax and not exempt else "")
    return salestax.Taxed(day, place, tax.get("rate") or "0", net, cents, exempt)


def cash(book, account, asked) -> Report:
    """Reports that fall due from cash received on the days asked for; payments of earlier days count with them."""
    period = f"{asked.first.isoformat()} to {asked.last.isoformat()}"
    if account.books.currency != "USD":
        return replace(cash_report.report([], period), notes=[DOLLARS])
    flags = cashreport.flags(list(_receipts(account)))
    return cash_report.report([flag for flag in flags if asked.first <= flag.received <= asked.last], period)


def _receipts(account) -> Iterator[cashreport.Receipt]:
    for event, day in _taken(account, "sale", "ticket", "trade"):
        if event.kind == "trade" and event.body["boot"] <= 0:
            continue
        payer = event.body.get("to") or event.body.get("with") or ""
        deal = f"{event.kind} of {day.isoformat()}, entry {event.seq}"
        for payment in event.body["payments"]:
            yield cashreport.Receipt(payer, deal, day, payment["how"], payment["cents"])
