"""Sales tax, and payments that make up a ticket."""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exergue.money.payments import BadPayments, Payment, by_way, cash_part, change, check, difference, take
from exergue.money.salestax import BadTax, Exempt, Taxed, collected, exemption, rate, tax, tax_within, written

RATES = st.decimals(0, 25, places=3).map(str)
MONEY = st.integers(0, 10**9)


@given(MONEY, RATES)
def test_it_is_the_decimal_product_rounded_half_up(amount, at):
    exact = Decimal(amount) * Decimal(at) / 100
    assert tax(amount, at) == int(exact.quantize(Decimal(1), ROUND_HALF_UP))


@given(MONEY, RATES)
def test_a_return_gives_back_what_the_sale_took(amount, at):
    assert tax(-amount, at) == -tax(amount, at)


@given(MONEY, RATES)
def test_the_tax_within_a_price_is_the_tax_on_its_net(net, at):
    assert tax_within(net + tax(net, at), at) == (net, tax(net, at))


@given(MONEY, RATES)
def test_net_and_tax_make_up_the_price(total, at):
    net, inside = tax_within(total, at)
    assert net + inside == total
    assert abs(tax(net, at) - inside) <= 1


@pytest.mark.parametrize("text", ["", "8,25,1", "-1", "1e2", "101", "٨", "tax"])
def test_what_is_no_rate_is_refused(text):
    with pytest.raises(BadTax, match="per cent"):
        rate(text)


@pytest.mark.parametrize(("text", "plain"), [("8.250", "8.25"), ("8,25 %", "8.25"), ("10", "10"), ("0", "0")])
def test_a_rate_is_read_and_written(text, plain):
    assert written(rate(text)) == plain


@pytest.mark.parametrize(("certificate", "reason", "said"), [(" ", "resale", "number"), ("12", " ", "reason")])
def test_an_exemption_needs_its_number_and_its_reason(certificate, reason, said):
    with pytest.raises(BadTax, match=said):
        exemption(certificate, reason)


def test_sums_by_place_and_rate():
    first, last = date(2025, 1, 1), date(2025, 3, 31)
    sales = [
        Taxed(first, "Exampleton", "8.250", 100_00, 8_25),
        Taxed(last, "Exampleton ", "8.25", -20_00, -1_65),
        Taxed(last, "Exampleton", "8.25", 50_00, 0, Exempt("12", "resale")),
        Taxed(last, "Exampleton", "9", 10_00, 1_00),
        Taxed(last, "Otherville", "6", 10_00, 60),
        Taxed(date(2025, 4, 1), "Otherville", "6", 10_00, 60),
    ]
    rows = [(c.place, c.rate, c.sales, c.exempt, c.taxable, c.tax, c.off) for c in collected(sales, first, last)]
    assert rows == [
        ("Exampleton", "8.25", 130_00, 50_00, 80_00, 6_60, 0),
        ("Exampleton", "9", 10_00, 0, 10_00, 1_00, 10),
        ("Otherville", "6", 10_00, 0, 10_00, 60, 0),
    ]


def test_a_period_ends_after_it_begins():
    with pytest.raises(BadTax, match="before it begins"):
        collected([], date(2025, 2, 1), date(2025, 1, 1))


PAYMENTS = st.lists(st.builds(Payment, st.sampled_from(["cash", "check", "card"]), st.integers(1, 10**6)), min_size=1)


def test_the_difference_is_said():
    paid = [Payment("cash", 50_00), Payment("card", 25_00)]
    assert difference(100_00, paid) == -25_00
    with pytest.raises(BadPayments, match=r"\$75\.00 is paid of \$100\.00: \$25\.00 missing"):
        check(100_00, paid)
    with pytest.raises(BadPayments, match=r"\$5\.00 too much"):
        check(70_00, paid)


def test_a_payment_of_nothing_is_refused():
    with pytest.raises(BadPayments, match="settles nothing"):
        check(10_00, [Payment("cash", 10_00), Payment("card", 0)])


def test_change_comes_out_of_the_cash():
    assert take(95_00, [Payment("card", 60_00), Payment("cash", 50_00)]) == (
        [Payment("card", 60_00), Payment("cash", 35_00)],
        15_00,
    )
    with pytest.raises(BadPayments, match="change is given in cash"):
        take(50_00, [Payment("card", 60_00), Payment("cash", 5_00)])
    assert change(35_00, 50_00) == 15_00
    with pytest.raises(BadPayments, match="missing"):
        change(35_00, 30_00)


@given(PAYMENTS, st.integers(0, 10**6))
def test_what_is_taken_makes_up_what_is_due(handed, back):
    due = difference(back, handed)
    if back <= cash_part(handed) and due >= 0:
        kept, given_back = take(due, handed)
        assert given_back == back
        assert difference(due, kept) == 0
        assert sum(by_way(kept).values()) == due
        assert cash_part(kept) == cash_part(handed) - back
