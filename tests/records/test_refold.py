"""The tables follow from the journal: folding it again gives the same, whatever was done."""

import json

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from exergue.labels.ids import new_id
from exergue.records import reading, refold
from exergue.records.book import Book
from exergue.records.tables import FOLDED, About, Card, CardSum, Coin, Fact, Setting, Voided, dumps
from tests.records.conftest import Phone

MONEY = ["pieces", "acquired", "cost", "ticket", "return", "trade", "memo out", "memo in", "away", "back", "lost", "withdrawn", "money"]
FLOOR = ["pack", "unpack", "count", "count all", "drawer", "close", "open", "settle", "contact", "sighting", "seen there"]
STEPS = st.lists(
    st.tuples(
        st.sampled_from(["buy", "lot", "sell", "place", "check", "note", "void", "void", "decide", "decide", "want", "odd", "blank",
                         "add", *MONEY, *FLOOR]),  # fmt: skip
        st.integers(0, 1),  # which phone
        st.integers(0, 5),  # which coin
        st.integers(0, 7),  # which value, entry or look
    ),
    max_size=40,
)

WANTS = [("want.add", {"set": {}}), ("want.drop", {}), ("want.edit", {"base": {"note": "seen"}, "set": {"note": "new"}})]


def play(book, steps):
    phones = [Phone(book, "one"), Phone(book, "two")]
    phones[0].say("show.add", show=SHOW, set={"name": "Larkmoor Coin Days", "float": 500, "budget": 1_000, "ends": "2026-03-16"})
    draw = phones[0].random
    coins = [new_id(draw.choice) for _ in range(6)]
    for what, who, which, value in steps:
        step(phones, draw, coins, what, who, which, value)
    return phones, coins


def step(phones, draw, coins, what, who, which, value):
    phone, coin = phones[who], coins[which]
    if what == "buy":
        phone.buy(coin, cents=value * 333)
    elif what == "lot":
        bought = [{"coin": one, "set": {"place": f"Box {value}"}} for one in {coin, coins[value % 6]}]
        phone.say("purchase", bought=sorted(bought, key=lambda row: row["coin"]), costs=[], date="2026-03-14")
    elif what == "add":
        phone.say("coin.add", coin=coin, set={"denom": "cent", "place": f"Box {value}"})
    elif what == "sell":
        phone.sell(coin, 1000 + value)
    elif what == "place":
        base, new = f"Box {value % 3}", f"Box {value}"
        phone.say("coin.edit", coin=coin, base={"place": base}, set={"place": new, "ask": value}, seen=value)
    elif what == "check":
        phone.say("check", coin=coin, key="facing", answer=["fits", "differs", "unsure"][value % 3], base="")
    elif what == "note":
        phone.say("note", coin=coin, text=f"note {value}")
    elif what == "void" and phone.made:
        phone.say("void", of=phone.made[-1 - value % len(phone.made)]["id"])
    elif what == "decide" and reading.looks():
        looks = reading.looks()
        choice = ["keep", "take", "first", "second", "drop", "new_id"][value % 6]
        label = coin if who else new_id(draw.choice)  # one of those in play, free or not, or a fresh one
        phone.say("decide", look=looks[value % len(looks)]["id"], choice=choice, coin=label)
    elif what == "want":
        want = f"01890000-0000-7000-8000-00000000000{which}"
        kind, more = WANTS[value % 3]
        phone.say(kind, want=want, **more)
    elif what == "blank":
        phone.say("labels.blank", ids=[coin])
    elif what in FLOOR:
        kind, body = floor(what, coin, coins[value % 6], which, value)
        phone.say(kind, **body)
    elif what in MONEY:
        phone.send(phone.fact(what.split()[0] if what != "pieces" else "coin.edit", **money(what, coin, coins[value % 6], value, phones)))
    elif what == "odd":
        phone.say("not.yet.known", coin=coin)


SHOW, SELLER = "01890000-0000-7000-8000-0000000000aa", "01890000-0000-7000-8000-0000000000bb"


def floor(what, coin, other, which, value):
    """(kind, body) of one fact of the show floor; not all of them fit."""
    key = f"01890000-0000-7000-8000-0000000000c{which}"
    if what in ("contact", "sighting", "seen there"):
        kind = "contact" if what == "contact" else "sighting"
        about = {"name": "A. Marsh"} if kind == "contact" else {
            "contact": SELLER, "want": f"01890000-0000-7000-8000-00000000000{which}", "ask": value * 100, "title": "seen"}  # fmt: skip
        ways = [("add", {"set": about}), ("drop", {}), ("edit", {"base": {"note": ""}, "set": {"note": f"note {value}"}})]
        how, body = ways[value % 3]
        return f"{kind}.{how}", body | {kind: SELLER if kind == "contact" else key}
    return {
        "pack": ("pack", {"show": SHOW, "coins": sorted({coin, other}), "box": f"Box {value % 2}"}),
        "unpack": ("pack", {"show": SHOW, "coins": [coin], "undo": True}),
        "count": ("count", {"show": SHOW, "count": key, "place": f"Box {value % 2}", "seen": [{"coin": one} for one in sorted({coin, other})]}),
        "count all": ("count", {"count": key, "seen": [{"coin": coin, "how": "hand"}]}),
        "drawer": ("drawer", {"show": SHOW, "date": "2026-03-16", "pieces": [{"cents": 100, "number": value}, {"cents": 25, "number": which}]}),
        "close": ("show.close", {"show": SHOW, "date": "2026-03-16"}),
        "open": ("show.open", {"show": SHOW, "date": "2026-03-16"}),
        "settle": ("settle", {"show": SHOW, "key": f"{key}/missing/{coin}", "note": f"note {value}"}),
    }[what]


def money(what, coin, other, value, phones):
    """The body of one fact of money about `coin`, and `other` where it takes two; not all of them fit."""
    day, both = {"date": "2026-03-16"} | ({"show": SHOW} if value % 3 and what in ("ticket", "trade", "money") else {}), sorted({coin, other})
    sales = [fact["id"] for phone in phones for fact in phone.made if fact["kind"] in ("sale", "ticket")]
    fresh = {"title": "new", "pieces": value + 1} if value % 2 else {}
    bodies = {
        "acquired": {"how": ["opening", "inherited", "gift", "found"][value % 4], "coins": [{"coin": coin, "set": fresh, "value": value}]},
        "cost": {"coins": [{"coin": one} for one in both], "costs": [{"what": "grading", "cents": 100 + value}]},
        "ticket": {"sold": [{"coin": one} | ({"pieces": value} if value > 5 else {}) for one in both], "price": value * 1001},
        "return": {"of": sales[value % len(sales)] if sales else "01890000-0000-7000-8000-000000000001", "refund": value},
        "trade": {"out": [{"coin": coin, "value": 500}], "in": [{"coin": other, "set": fresh, "value": 400}], "boot": 100},
        "memo out": {"way": "out", "kind": "memo", "coins": [{"coin": coin, "net": value}], "with": "A. Marsh"},
        "memo in": {"way": "in", "kind": "consignment", "coins": [{"coin": coin, "set": fresh, "net": value}]},
        "away": {"coins": both, "why": ["grading", "display"][value % 2]},
        "back": {"coins": both},
        "lost": {"coin": coin, "how": "stolen"} | ({"pieces": value} if value > 5 else {}),
        "withdrawn": {"coins": [coin], "to": ["personal", "stock"][value % 2]},
        "money": {"what": "expense", "cents": value, "how": "cash"},
    }
    return day | bodies[what] if what in bodies else {"coin": coin, "base": {"pieces": 1}, "set": {"pieces": value + 1}}


def state():
    """Every folded table but the lists of what was entered, without the marks of who wrote last and when."""
    skip = {"Coin": {"fact_seq", "fact_device"}}
    out = {}
    for table in FOLDED:
        if table in (About, Voided, CardSum):
            continue
        names = [field for field in table._meta.sorted_fields if field.name not in skip.get(table.__name__, ())]
        rows = table.select(*names).where(Card.open.is_null(False) if table is Card else True)
        lines = [row.__data__ | ({"seq": 0, "open": {**json.loads(row.open), "at": 0}} if table is Card else {}) for row in rows]
        out[table.__name__] = sorted(dumps(line) for line in lines)
    return out


@settings(max_examples=80, phases=[Phase.explicit, Phase.reuse, Phase.generate], suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS, last=st.tuples(st.sampled_from(MONEY + FLOOR + ["buy", "sell"]), st.integers(0, 1), st.integers(0, 5), st.integers(0, 7)))
def test_undoing_an_entry_of_money_leaves_every_table_as_it_was(tmp_path_factory, steps, last):
    book = Book.create(tmp_path_factory.mktemp("book"))
    with book.connected():
        phones, coins = play(book, steps)
        looks = len(reading.looks(open_only=False))
        before = state()
        what, who, which, value = last
        had = len(phones[who].made)
        step(phones, phones[0].random, coins, what, who, which, value)
        phone, made = phones[who], phones[who].made[had]
        if made["kind"] in ("contact.edit", "sighting.edit"):  # what it put back is what the editor saw, which may not be what stood
            return
        verdict = Fact.get(Fact.id == made["id"]).verdict
        if verdict == "refused":
            assert state() == before
            return
        assert phone.say("void", of=made["id"]).verdict in ("applied", "merged" if made["kind"] == "coin.edit" else "applied")
        after = state()
        if verdict != "applied":  # what was to be looked at is settled, and stays on record
            settled = [look for look in reading.looks(open_only=False)][looks:]
            assert all(not look["open"] for look in settled)
            after.pop("Look"), before.pop("Look")
        assert after == before


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_refolding_gives_the_same_tables_and_verdicts(tmp_path_factory, steps):
    book = Book.create(tmp_path_factory.mktemp("book"))
    with book.connected():
        play(book, steps)
        assert refold.verify() == []
        assert Fact.select().where(Fact.verdict == "contested", Fact.code == "fault").count() == 0


def test_verify_notices_a_table_that_was_tampered_with(book, anna):
    coin, _ = anna.buy()
    Coin.update(ask=1).where(Coin.id == coin).execute()
    assert refold.verify() == ["Table Coin does not follow from the journal."]


def test_verify_notices_a_card_that_was_lost(book, anna):
    coin, _ = anna.buy()
    Card.delete().where(Card.id == coin).execute()
    assert set(refold.verify()) >= {"The digest sums do not follow from the cards."}


def test_a_rebuild_mends_the_tables_and_tells_devices_only_what_changed(book, anna):
    kept, _ = anna.buy()
    mended, _ = anna.buy()
    before = {card.id: card.seq for card in Card.select()}
    Coin.update(ask=1).where(Coin.id == mended).execute()
    Card.update(open='{"wrong":1}').where(Card.id == mended).execute()
    top = book.seq
    assert refold.rebuild() == []
    after = {card.id: card.seq for card in Card.select()}
    assert after[kept] == before[kept] and after[mended] > top
    assert refold.verify() == [] and book.card("coin", mended)["ask"] is None


def test_opening_a_book_after_the_catalogue_changed_renews_its_cards(tmp_path):
    book = Book.create(tmp_path / "book", name="Old")
    with book.connected():
        from exergue.records import journal

        journal.set_meta("fold", "of another version")
        Setting.update(value="Changed by hand").where(Setting.key == "name").execute()
    again = Book.open(tmp_path / "book")
    with again.connected():
        assert again.setting("name") == "Old"


def test_an_entry_of_a_kind_that_was_unknown_is_checked_when_the_desk_has_learnt_it(book, anna):
    coin, _ = anna.buy()
    good = anna.fact("of.the.future", coin=coin, text="worn flat")
    bad = anna.fact("of.the.future", coin=coin, text=7)
    late = anna.fact("of.the.future", coin=coin, text="x" * 3000)
    anna.send(good, bad, late)
    look = reading.looks()[0]["id"]
    assert anna.say("decide", look=look, choice="drop").verdict == "applied"
    Fact.update(kind="note").where(Fact.kind == "of.the.future").execute()
    refold.rebuild()
    rows = [Fact.get(Fact.id == fact["id"]) for fact in (good, bad, late)]
    assert [(row.verdict, row.code) for row in rows] == [("applied", None), ("refused", "bad_body"), ("refused", "bad_body")]
    assert [note["text"] for note in book.card("coin", coin)["notes"]] == ["worn flat"]
    assert reading.looks() == [] and refold.verify() == []
    assert refold.rebuild() == []


def test_what_was_taken_once_is_never_refused_by_an_upgrade(book, anna, monkeypatch):
    from exergue.records.fold import FOLDS
    from exergue.records.verdicts import Refused

    coin, bought = anna.buy()
    line = Fact.get(Fact.id == bought.fact)

    def stricter(entry):
        raise Refused("stricter", "No more.")

    with monkeypatch.context() as now:
        now.setitem(FOLDS, "purchase", stricter)
        assert refold.rebuild() == [f"Entry {line.seq} (purchase) was applied, and is refused now."]
        assert Fact.get(Fact.id == bought.fact).verdict == "applied"
    assert refold.rebuild() == [] and book.card("coin", coin)["state"] == "in stock"
