"""Worth in the book: the market follows sales, settings and day, and phones get it as small tables."""

import json
import threading
from datetime import date

import pytest

from exergue.labels.ids import new_id
from exergue.records import knowledge, planning, reading, worth, worth_tables
from exergue.records.tables import Card

TODAY = date(2026, 6, 30)
TYPE = "half-cent/draped-bust"


def seen(book, cents, grade="VF-20", day="2026-05-01", year=1806, **more):
    about = {"date": day, "price": cents, "denom": "half-cent", "type": TYPE, "year": year, "grade": grade, "fee_included": True}
    return book.act("sale.seen", {"set": about | more})


def coin(grade="VF-20", **more):
    return {"type": TYPE, "year": 1806, "mint": "", "grade": grade, "own": {"cost": None}, **more}


def mid(book, today=TODAY, **fields):
    return worth.of_coin(coin(**fields), book.settings(), today).row.mid


@pytest.mark.parametrize("grade, said", [
    ("VF-20", ("", False)), ("", ("", False)), ("MS-64+ RB", ("RB", False)), ("PF-65 DCAM", ("PF DCAM", False)),
    ("AU-50 Details (cleaned)", ("", True)), ("VF-30 Details (porous) net F-12", ("", False)),
])  # fmt: skip
def test_a_grade_says_its_designation_and_trouble(grade, said):
    assert worth.group(grade) == said


def test_without_sales_nothing_is_said(book):
    said = worth.of_coin(coin(), book.settings(), TODAY)
    assert (said.row.mid, said.estimate.sales, said.picture.curve) == (None, 0, ())


def test_the_market_is_kept_until_a_sale_a_setting_or_the_day_changes(book):
    seen(book, 10_000)
    first = worth.market(book.settings(), TODAY)
    book.act("coin.add", {"coin": new_id(), "set": {"denom": "half-cent"}})
    assert worth.market(book.settings(), TODAY) is first
    seen(book, 11_000)
    second = worth.market(book.settings(), TODAY)
    assert second is not first and len(second.sales) == 2
    book.act("setting", {"key": "worth", "value": {"half_life_days": 400}})
    third = worth.market(book.settings(), TODAY)
    assert third is not second and third.settings.half_life_days == 400
    assert worth.market(book.settings(), date(2026, 7, 1)) is not third


def test_the_buyers_fee_of_the_settings_is_added(book):
    """A fee of 25 % on a price that leaves it out is a quarter more."""
    for day in ("2026-05-01", "2026-05-02", "2026-05-03"):
        seen(book, 10_000, day=day, fee_included=False)
    book.act("setting", {"key": "worth", "value": {"buyers_fee": "0"}})
    without = mid(book)
    book.act("setting", {"key": "worth", "value": {"buyers_fee": "25"}})
    assert mid(book) == pytest.approx(without * 1.25, rel=0.002)


def test_settings_of_before_their_rule_count_as_unset(book):
    settings = book.settings() | {"worth": {"half_life_days": 1, "floor": {"margin": "5000"}}, "spot": {"tin": {}}}
    assert worth.assumptions(settings).half_life_days == 1826
    assert worth.owners_rule(settings)["floor"]["margin"] == "10"
    assert worth.spots(settings) == {}


def test_metal_is_worth_its_lawful_weight(book):
    """A Morgan dollar holds 0.7734 oz troy of silver: 412.5 grains, .900 (Act of 28 February 1878); at $30: $23.20."""
    book.act("setting", {"key": "spot", "value": {"silver": {"cents": 3000, "date": "2026-06-30"}}})
    key = next(key for key in knowledge.catalogue().types if "morgan" in key)
    assert worth.melt_of(key, None, book.settings()).cents == 2320


def test_a_lots_cost_is_one_pieces_share_rounded_up(book):
    card = coin(pieces=3) | {"own": {"cost": 1000}}
    assert worth.of_coin(card, book.settings(), TODAY).cost == 334


def test_a_ceiling_is_eighty_five_percent_of_the_middle(book):
    """The usual rule of money/rule.toml."""
    seen(book, 10_000)
    want = {"type": TYPE, "grade_from": "VF-20", "years": "1806"}
    assert worth.ceiling(want, book.settings(), TODAY).cents == mid(book) * 85 // 100
    assert worth.ceiling(want | {"grade_from": ""}, book.settings(), TODAY) is None


def tables(book):
    return json.loads(worth_tables.text(book.settings(), TODAY)[0])


def test_tables_say_what_the_desk_says(book):
    seen(book, 10_000)
    seen(book, 14_000, "VF-30", year=1804)
    seen(book, 30_000, "VF-20 Details (cleaned)")
    found = tables(book)["types"][TYPE]
    assert found["sales"] == 3 and {"//", "1806//", "1804//", "//!", "1806//!"} == set(found["tables"])
    rows = {row[0]: row for row in found["tables"]["1806//"]}
    said = worth.of_coin(coin(), book.settings(), TODAY).row
    assert rows[20] == [20, said.low, said.mid, said.high, said.sales, said.last.isoformat()]


def test_the_tag_changes_with_the_tables_alone(book):
    seen(book, 10_000)
    first = worth_tables.text(book.settings(), TODAY)
    assert worth_tables.text(book.settings(), TODAY) == first
    seen(book, 20_000)
    assert worth_tables.text(book.settings(), TODAY)[1] != first[1]


def test_a_want_a_coin_and_the_day_are_in_the_tables_at_once(book):
    seen(book, 10_000)
    want = "01890000-0000-7000-8000-000000000001"
    assert tables(book)["ceilings"] == {}
    book.act("want.add", {"want": want, "set": {"denom": "half-cent", "type": TYPE, "grade_from": "VF-20"}})
    assert list(tables(book)["ceilings"]) == [want]
    book.act("coin.add", {"coin": new_id(), "set": {"denom": "half-cent", "type": TYPE, "year": 1807, "grade": "VF-20"}})
    assert "1807//" in tables(book)["types"][TYPE]["tables"]
    assert json.loads(worth_tables.text(book.settings(), date(2026, 7, 1))[0])["made"] == "2026-07-01"


def test_estimates_are_no_part_of_what_is_folded(book):
    """Cards and their digest stay as they are, whatever an estimate says."""
    seen(book, 10_000)
    before = list(Card.select().order_by(Card.kind, Card.id).dicts())
    tables(book)
    assert list(Card.select().order_by(Card.kind, Card.id).dicts()) == before


def test_a_large_market_is_renewed_behind_the_back_and_the_one_before_says_its_age(book, monkeypatch):
    seen(book, 10_000)
    first = worth.market(book.settings(), TODAY)
    assert worth.age(book.settings(), TODAY) is None
    monkeypatch.setattr(worth, "AT_ONCE", 1)
    with worth._lock:  # the market that is being made waits for whoever asks
        seen(book, 11_000)
        assert worth.market(book.settings(), TODAY) is first
        assert worth.age(book.settings(), TODAY) == worth._made_ms
    for thread in threading.enumerate():
        if thread.name == "market":
            thread.join()
    assert len(worth.market(book.settings(), TODAY).sales) == 2 and worth.age(book.settings(), TODAY) is None


def test_a_recorded_sale_that_is_undone_is_no_evidence(book):
    kept = seen(book, 10_000)
    wrong = seen(book, 90_000)
    book.act("void", {"of": wrong.fact})
    (sale,) = worth.market(book.settings(), TODAY).sales
    assert sale.cents == 10_000 and kept.verdict == "applied"


def test_a_phone_gets_every_price_that_a_plan_may_ask_for(book):
    """Dates past the newest tables, a date that only a want names, proofs of a slot: all that the desk's plan rests on."""
    goal = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c33"
    seen(book, 9_000, year=1803)
    seen(book, 12_000, year=1805)
    seen(book, 40_000, grade="PF-63", year=1806)
    plain = json.loads(worth_tables.text(book.settings(), TODAY)[0])["types"][TYPE]
    assert plain["issues"] == ["1803", "1805", "1806"]
    slots = [{"key": "p", "title": "A proof", "types": [TYPE], "strike": "proof"}, {"key": "d", "title": "1803", "types": [TYPE], "years": "1803"}]
    book.act("set.add", {"goal": goal, "set": {"name": "Half cents", "slots": slots}})
    book.act("want.add", {"want": "01890000-0000-7000-8000-000000000201", "set": {"denom": "half-cent", "type": TYPE, "years": "1805-1806"}})
    tables = json.loads(worth_tables.text(book.settings(), TODAY)[0])["types"][TYPE]["tables"]
    asked = planning.all_targets(planning.issues(worth.market(book.settings(), TODAY).sales), reading.wants(), reading.goals())
    assert {worth_tables.key(target) for target in asked} == {"//PF", "1803//PF", "1805//PF", "1806//PF", "1803//", "1805//", "1806//"}
    sought = [*planning.of_wants(book.settings(), TODAY), *planning.of_set(goal, book.settings(), TODAY)]
    assert len(sought) == 3 and all(want.options for want in sought)
    for want in sought:
        for option in want.options:
            year, _, mint = option.issue.partition("-")
            rows = tables[f"{year}/{mint}/{'PF' if want.slot.strike == 'proof' else ''}"]
            assert [option.cents, option.sales] in [[row[2], row[4]] for row in rows]
