"""However a phone cuts its entries into requests and repeats them, the book is the same."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from exergue.records import refold
from exergue.records.book import Book
from exergue.records.tables import Fact
from tests.records.conftest import Phone


def entries(phone):
    coin, other = phone.new_id(), phone.new_id()
    bought = [{"coin": coin, "set": {"place": "Case 1"}}, {"coin": other, "set": {}}]
    phone.fact("purchase", bought=bought, costs=[{"what": "price", "cents": 10_001}], date="2026-03-14")
    phone.fact("note", coin=coin, text="one")
    phone.fact("sale", coin=coin, price=9_000, date="2026-03-15")
    phone.fact("sale", coin=coin, price=8_000, date="2026-03-15")
    phone.fact("coin.edit", coin=other, base={"place": "elsewhere"}, set={"place": "Case 2"})
    phone.fact("of.the.future", coin=coin)
    phone.fact("note", coin=phone.new_id(), text="no such coin")
    phone.fact("void", of=phone.made[2]["id"])
    return phone.made


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(cuts=st.lists(st.tuples(st.integers(0, 8), st.integers(0, 8)), max_size=12))
def test_repeated_and_overlapping_requests_change_nothing_more(tmp_path_factory, cuts):
    once = Book.create(tmp_path_factory.mktemp("once"))
    with once.connected():
        phone = Phone(once, "phone")
        made = entries(phone)
        verdicts = {v.fact: (v.verdict, v.code) for v in phone.send(*made)}
        expected = refold.prints()
    often = Book.create(tmp_path_factory.mktemp("often"))
    with often.connected():
        phone = Phone(often, "phone")
        entries(phone)
        sent = 0
        for back, more in cuts:
            start, end = max(0, sent - back), min(len(made), sent + more)
            answers = phone.send(*made[start:end])
            assert all((a.verdict, a.code) == verdicts[a.fact] for a in answers)
            sent = max(sent, end)
        answers = phone.send(*made[sent:], *made)
        assert {a.fact: (a.verdict, a.code) for a in answers} == verdicts
        assert Fact.select().where(Fact.device == phone.device.id).count() == len(made)
        same = {name for name, digest in refold.prints().items() if digest == expected[name]}
    assert {"Bought", "Purchase", "Sale", "Voided"} <= same
