"""Cash over the limit."""

from datetime import date, datetime

from hypothesis import given
from hypothesis import strategies as st

from exergue.money import rules
from exergue.money.cashreport import Receipt, counts, flags

LIMIT = rules.value("cash_limit")


def cash(deal, at, cents, payer="B. Buyer", **more):
    return Receipt(payer, deal, at, more.pop("how", "cash"), cents, **more)


def test_one_payer_by_any_spelling_of_case_and_space():
    day = date(2025, 1, 10)
    (flag,) = flags([cash("1", day, 6_000_00, "B.  Buyer"), cash("2", day, 6_000_00, "b. buyer ")])
    assert flag.cents == 12_000_00


def test_two_payers_are_not_added_up():
    day = date(2025, 1, 10)
    assert flags([cash("1", day, 6_000_00, "B"), cash("1", day, 6_000_00, "C")]) == []


def test_payers_without_a_name_are_not_taken_for_one():
    day = date(2025, 1, 10)
    assert flags([cash("1", day, 6_000_00, ""), cash("2", day, 6_000_00, " ")]) == []
    assert len(flags([cash("1", day, 6_000_00, ""), cash("1", day, 6_000_00, "")])) == 1
    (flag,) = flags([cash(deal, day, 6_000_00, "", link="he came twice") for deal in "12"])
    assert flag.cents == 12_000_00


def test_more_than_24_hours_apart_is_not_related_by_itself():
    apart = [cash("1", datetime(2025, 1, 10, 9), 6_000_00), cash("2", datetime(2025, 1, 11, 10), 6_000_00)]
    assert flags(apart) == []
    linked = [Receipt(**{**vars(one), "link": "the collection"}) for one in apart]
    (flag,) = flags(linked)
    assert flag.why == "Transactions linked by you."


def test_days_that_follow_each_other_without_times_are_to_be_looked_at():
    (flag,) = flags([cash("1", date(2025, 1, 10), 6_000_00), cash("2", date(2025, 1, 11), 6_000_00)])
    assert not flag.certain
    assert "24 hours" in flag.why
    assert flag.due == date(2025, 1, 26)
    assert flag.told == date(2026, 1, 31)


def test_instalments_of_more_than_a_year_ago_do_not_count():
    early, late = cash("1", date(2024, 1, 10), 6_000_00), cash("1", date(2025, 1, 11), 6_000_00)
    assert flags([early, late]) == []
    (flag,) = flags([early, cash("1", date(2025, 1, 10), 6_000_00)])
    assert flag.received == date(2025, 1, 10)


def test_everything_of_the_day_is_in_the_report():
    day = date(2025, 1, 10)
    (flag,) = flags([cash("1", day, 6_000_00), cash("1", day, 6_000_00), cash("2", day, 500_00)])
    assert (flag.cents, len(flag.receipts)) == (12_500_00, 3)


def test_what_counts_as_cash():
    day = date(2025, 1, 10)
    assert counts(cash("1", day, 50_000_00))
    assert counts(cash("1", day, 10_000_00, how="money order"))
    assert not counts(cash("1", day, 10_000_01, how="money order"))
    assert not counts(cash("1", day, 9_000_00, how="money order", retail=False))
    assert counts(cash("1", day, 9_000_00, how="money order", retail=False, avoiding=True))
    assert not counts(cash("1", day, 9_000_00, how="check"))


RECEIPTS = st.lists(
    st.builds(cash, st.sampled_from("123"), st.dates(date(2025, 1, 1), date(2025, 2, 1)), st.integers(1, 2 * LIMIT),
              st.sampled_from("AB")), max_size=10)  # fmt: skip


@given(RECEIPTS)
def test_every_flag_is_over_the_limit_and_no_payment_is_reported_twice_for_certain(receipts):
    found = flags(receipts)
    assert all(flag.cents == sum(one.cents for one in flag.receipts) > LIMIT for flag in found)
    assert all((flag.due - flag.received).days == 15 for flag in found)
    reported = [id(one) for flag in found if flag.certain for one in flag.receipts]
    assert len(reported) == len(set(reported))


@given(RECEIPTS)
def test_no_single_payment_over_the_limit_is_missed(receipts):
    reported = {id(one) for flag in flags(receipts) for one in flag.receipts}
    assert all(id(one) in reported for one in receipts if one.cents > LIMIT)
