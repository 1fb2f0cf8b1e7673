"""The whole show day over HTTP, as `exergue rehearse` walks it."""

import json

from exergue import rehearse
from exergue.rehearse.day import Rehearsal


def test_the_day_ends_with_stock_and_cash_in_agreement():
    said = []
    assert rehearse.run(as_json=True, out=said.append) == 0
    report = json.loads(said[0])
    assert report["failures"] == [] and report["checks"] >= 44 and len(report["steps"]) == 11
    close = report["close"]
    assert close["agrees"] and close["pieces_off"] == 0 and close["cash_off"] == 0
    assert close["count"]["open"] == 0 and close["count"]["expected"] == close["count"]["seen"] and close["drawer"]["off"] == 0 and close["closed"]
    assert close["gross_profit"] == close["sales"] - close["cost_of_sales"]


def test_a_desk_that_loses_a_sale_is_found_out(monkeypatch):
    """The rehearsal can fail: here the phone forgets to send one of its sales."""
    honest = Rehearsal.trade_offline

    def forgetful(day):
        honest(day)
        sale = next(fact for fact in day.phone.waiting if fact["kind"] == "sale")
        day.phone.waiting.remove(sale)
        for number, fact in enumerate(day.phone.waiting, start=day.phone.waiting[0]["n"]):
            fact["n"] = number
        day.phone.n -= 1

    monkeypatch.setattr(Rehearsal, "trade_offline", forgetful)
    said = []
    assert rehearse.run(as_json=True, out=said.append) == 1
    assert any("stock that there is" in line for line in json.loads(said[0])["failures"])
