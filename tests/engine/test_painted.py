"""What a phone shows of an entry that waits is what the desk makes of it."""

import json

import pytest
from support import browser as browsers

from exergue.labels.ids import new_id

pytestmark = pytest.mark.browser

PHOTO = """(async () => { const canvas = new OffscreenCanvas(60, 40); canvas.getContext('2d').fillRect(0, 0, 30, 40);
    return engine.record('photo', {coin: '%s', side: 'reverse'}, {photo: await canvas.convertToBlob({type: 'image/jpeg'})}) })()"""
TYPED = {"denom": "half-cent", "type": "half-cent/draped-bust", "year": 1806, "grade": "VF-20", "place": "Box 1", "ask": 900, "floor": 700}
SAID = {"denom": "half-cent", "title": "Token of a baker", "grade": "MS-64 RB", "mint": "S", "year": 1803, "publish": ["identity"]}
COSTS = [{"what": "price", "cents": 5_000}, {"what": "tax", "cents": 413}]


def act(phone, kind, /, **body):
    return phone.run(f"engine.record({json.dumps(kind)}, {json.dumps(body)})")


def bought(phone, about, **more):
    key = phone.run("engine.newId()")
    body = {"bought": [{"coin": key, "set": about}], "costs": COSTS, "date": "2026-03-14"} | more
    act(phone, "purchase", **{"from": "Ines Calloway"}, **body)
    return key


def plain(card):
    """A card without what only the desk, or only the phone, can say."""
    if card is None:
        return None
    card = {name: value for name, value in card.items() if name not in ("at", "waiting")}
    card["notes"] = [{"fact": one["fact"], "text": one["text"], "when": one["when"]} for one in card["notes"]]
    card["photos"] = [{name: one[name] for name in ("photo", "side", "fact")} for one in card["photos"]]
    return card


def each_alike(anna, stocked, keys):
    """Painted while they wait, and as the desk has them after sync."""
    painted = {key: anna.card(key) for key in keys}
    assert all(one is None or one["waiting"] for one in painted.values())
    anna.context.set_offline(False)
    anna.sync()
    assert anna.state()["waiting"] == 0 and anna.state()["refused"] == 0
    for key in keys:
        assert anna.card(key) == stocked.card(key)
        assert plain(painted[key]) == plain(stocked.card(key))


def test_purchases_sales_and_remarks(anna, stocked):
    first, second, third = stocked.ids[:3]
    anna.context.set_offline(True)
    keys = [bought(anna, TYPED, show="0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c11"), bought(anna, SAID), bought(anna, {}), first, second, third]
    act(anna, "sale", coin=first, price=20_000, costs=[{"what": "fee", "cents": 250}], date="2026-03-15", to="A. Marsh", payment="card")
    act(anna, "check", coin=second, key="facing", answer="fits", note="clear", base="")
    act(anna, "check", coin=second, key="edge", answer="unsure", base="")
    act(anna, "check", coin=second, key="edge", answer="", base="unsure")
    act(anna, "note", coin=third, text="a small nick")
    act(anna, "coin.edit", coin=third, base={"place": "Box 2"}, set={"place": "Case 9", "floor": 4_000})
    anna.run(PHOTO % third)
    act(anna, "sale", coin=keys[0], price=9_000, date="2026-03-15")
    each_alike(anna, stocked, keys)


def test_edits_name_the_coin_anew(anna, stocked):
    first, second = stocked.ids[:2]
    anna.context.set_offline(True)
    act(anna, "coin.edit", coin=first, base={}, set={"type": "half-cent/classic-head", "year": 1809, "grade": "AU-50"})
    act(anna, "coin.edit", coin=second, base={}, set={"year": None, "grade": "", "ask": None})
    each_alike(anna, stocked, [first, second])


def test_undoing_what_waits(anna, stocked):
    first, second = stocked.ids[:2]
    anna.context.set_offline(True)
    key = bought(anna, TYPED)
    act(anna, "void", of=anna.run("engine.entries()")[0]["fact"]["id"])
    act(anna, "sale", coin=first, price=100, date="2026-03-15")
    anna.run("engine.voidLast()")
    act(anna, "note", coin=second, text="stays")
    act(anna, "note", coin=second, text="goes")
    anna.run("engine.voidLast()")
    assert anna.run(f"engine.search('{key}')")["total"] == 0
    each_alike(anna, stocked, [key, first, second])


def test_undoing_what_the_desk_has_taken(anna, stocked):
    first, second, third = stocked.ids[:3]
    key = bought(anna, TYPED)
    act(anna, "sale", coin=first, price=100, date="2026-03-15")
    act(anna, "note", coin=second, text="goes")
    act(anna, "coin.edit", coin=second, base={"place": "Box 1"}, set={"place": "Case 9"})
    act(anna, "check", coin=third, key="facing", answer="fits", base="")
    anna.run(PHOTO % third)
    anna.sync()
    assert len(anna.card(third)["photos"]) == 1 and anna.card(first)["state"] == "sold"
    anna.context.set_offline(True)
    for _ in range(6):
        anna.run("engine.voidLast()")
    assert anna.card(key) is None and anna.run("engine.voidLast()") is None
    each_alike(anna, stocked, [key, first, second, third])


def test_wants_and_shows(anna, stocked):
    want, show = "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c22", "0f3b6f2e-6f3e-4d0a-9c1e-2f9a7f0d5c11"
    with browsers.offline(anna.context):
        act(anna, "want.add", want=want, set={"denom": "half-cent", "type": "half-cent/braided-hair", "ceiling": 15_000})
        act(anna, "show.add", show=show, set={"name": "Larkmoor Coin Days", "starts": "2026-01-01"})
        act(anna, "sale", coin=stocked.ids[0], price=1, date="2026-03-15", show=show)
        (wanted,), (there,) = anna.run("engine.list('want')"), anna.run("engine.list('show')")
        assert wanted["title"] == "Half cent, Braided Hair" and len(wanted["waiting"]) == 1
        assert there["name"] == "Larkmoor Coin Days" and len(there["waiting"]) == 1
    anna.sync()
    assert [one["id"] for one in anna.run("engine.list('want')")] == [want] and "waiting" not in anna.run("engine.list('show')")[0]
    key = bought(anna, TYPED, want=want)
    assert anna.run("engine.list('want')") == [] and anna.card(key)["title"] == "Half cent, Draped Bust"
    anna.sync()
    assert anna.run("engine.list('want')") == [] and stocked.book.card("want", want) is None
    anna.run("engine.voidLast()")
    anna.sync()  # a want that is gone from this phone comes back from the desk
    assert [one["id"] for one in anna.run("engine.list('want')")] == [want]
    act(anna, "want.drop", want=want)
    assert anna.run("engine.list('want')") == []


def test_a_helper_sees_no_cost_even_of_what_it_bought(stocked, phone):
    from tests.engine.conftest import Phone

    till = Phone(phone, stocked).pair("helper")
    with browsers.offline(till.context):
        key = bought(till, TYPED)
        assert till.card(key)["title"] == "Half cent, Draped Bust" and "own" not in till.card(key)
    till.sync()
    assert "own" not in till.card(key) and stocked.card(key)["own"]["cost"] == 5_413


def test_a_lot_shows_no_split_before_the_desk_has_made_it(anna, stocked):
    with browsers.offline(anna.context):
        keys = [anna.run("engine.newId()") for _ in range(3)]
        act(anna, "purchase", bought=[{"coin": key, "set": TYPED} for key in keys], costs=COSTS, date="2026-03-14")
        assert anna.card(keys[0])["own"]["cost"] is None and anna.card(keys[0])["own"]["purchase"]["total"] == 5_413
    anna.sync()
    assert sum(anna.card(key)["own"]["cost"] for key in keys) == 5_413


def test_a_purchase_on_a_blank_label_takes_it(anna, stocked):
    blank = anna.run("engine.newId()")
    with stocked.book.connected():
        stocked.book.act("labels.blank", {"ids": [blank]})
    anna.sync()
    with browsers.offline(anna.context):
        assert anna.run(f"engine.card('blank', '{blank}')")["id"] == blank
        act(anna, "purchase", bought=[{"coin": blank, "set": TYPED}], costs=COSTS, date="2026-03-14")
        assert anna.run(f"engine.card('blank', '{blank}')") is None and anna.card(blank)["state"] == "in stock"
    anna.sync()
    assert anna.run(f"engine.card('blank', '{blank}')") is None and anna.card(blank) == stocked.card(blank)


def place(card):
    """What a phone says of a coin's whereabouts."""
    return card and {name: card.get(name) for name in ("state", "left", "pieces", "where", "theirs")}


def moved(anna, one, two, three):
    """Entries about three coins of the book, a lot and coins that come in: their IDs."""
    day = {"date": "2026-03-16"}
    lot = anna.run("engine.newId()")
    act(anna, "purchase", bought=[{"coin": lot, "set": SAID, "pieces": 10}], costs=COSTS, **day)
    act(anna, "ticket", sold=[{"coin": one}, {"coin": lot, "pieces": 4}], price=9_000, **day)
    sold = next(one["fact"]["id"] for one in anna.run("engine.entries()") if one["fact"]["kind"] == "ticket")
    come, theirs, gift = (anna.run("engine.newId()") for _ in range(3))
    act(anna, "trade", out=[{"coin": two, "value": 500}], **{"in": [{"coin": come, "set": TYPED, "value": 400}]}, boot=100, **day)
    act(anna, "memo", way="out", kind="memo", coins=[{"coin": three, "net": 100}], due="2026-04-16", **day, **{"with": "R. Holt"})
    act(anna, "memo", way="in", kind="consignment", coins=[{"coin": theirs, "set": SAID, "net": 100}], **day)
    act(anna, "acquired", how="found", coins=[{"coin": gift, "set": TYPED, "value": 25}], **day)
    return sold, [one, two, three, lot, come, theirs, gift]


def test_whereabouts_follow_what_was_entered(anna, stocked):
    anna.context.set_offline(True)
    _, keys = moved(anna, *stocked.ids[:3])
    states = ["sold", "traded", "on memo", "in stock", "in stock", "on consignment", "in stock"]
    painted = [place(anna.card(key)) for key in keys]
    assert [one["state"] for one in painted] == states and painted[3]["left"] == 6
    anna.context.set_offline(False)
    anna.sync()
    assert anna.state()["refused"] == 0
    assert [place(stocked.card(key)) for key in keys] == painted


def test_what_comes_back_is_here_again(anna, stocked):
    sold, keys = moved(anna, *stocked.ids[:3])
    anna.sync()
    anna.context.set_offline(True)
    day = {"date": "2026-03-17"}
    act(anna, "return", of=sold, refund=0, **day)
    act(anna, "back", coins=[keys[2], keys[5]], **day)
    act(anna, "away", coins=[keys[4]], why="grading", **day, **{"with": "the graders"})
    act(anna, "lost", coin=keys[6], how="stolen", **day)
    painted = [place(anna.card(key)) for key in keys]
    assert [one["state"] for one in painted] == ["in stock", "traded", "in stock", "in stock", "at grading", "returned", "missing"]
    anna.context.set_offline(False)
    anna.sync()
    assert anna.state()["refused"] == 0
    assert [place(stocked.card(key)) for key in keys] == painted


def test_undoing_what_moved_coins(anna, stocked):
    before = [place(stocked.card(key)) for key in stocked.ids[:3]]
    _, keys = moved(anna, *stocked.ids[:3])
    anna.sync()
    anna.context.set_offline(True)
    for _ in range(6):
        anna.run("engine.voidLast()")
    painted = [place(anna.card(key)) for key in keys]
    assert painted == [*before, None, None, None, None]
    anna.context.set_offline(False)
    anna.sync()
    assert [place(anna.card(key)) for key in keys] == painted


def last(anna, kind):
    return next(one["fact"]["id"] for one in anna.run("engine.entries()") if one["fact"]["kind"] == kind)


def test_moves_and_later_costs_are_painted_whole(anna, stocked):
    graded, lent, back, found, own = stocked.ids[:5]
    day = {"date": "2026-03-16"}
    anna.context.set_offline(True)
    theirs = anna.run("engine.newId()")
    act(anna, "away", coins=[graded], why="grading", **day, **{"with": "the graders"})
    act(anna, "cost", coins=[{"coin": graded}], costs=[{"what": "grading", "cents": 3_500}], **day)
    act(anna, "memo", way="out", kind="memo", coins=[{"coin": lent, "net": 100}], due="2026-04-16", **day, **{"with": "R. Holt"})
    act(anna, "sale", coin=back, price=20_000, to="A. Marsh", payment="cash", **day)
    act(anna, "return", of=last(anna, "sale"), coins=[back], refund=20_000, **day)
    act(anna, "lost", coin=found, how="stolen", reimbursed=900, **day)
    act(anna, "back", coins=[found], **day)
    act(anna, "withdrawn", coins=[own], to="personal", **day)
    act(anna, "memo", way="in", kind="consignment", coins=[{"coin": theirs, "set": SAID, "net": 7_000}], **day, **{"with": "R. Holt"})
    act(anna, "ticket", sold=[{"coin": theirs}], price=9_000, payments=[{"how": "cash", "cents": 9_000}], to="A. Marsh", **day)
    act(anna, "cost", coins=[{"coin": lent}], costs=[{"what": "shipping", "cents": 700}], **day)
    act(anna, "sale", coin=graded, price=20_000, **day)
    act(anna, "cost", coins=[{"coin": graded}], costs=[{"what": "shipping", "cents": 50}], **day)
    each_alike(anna, stocked, [graded, lent, back, found, own, theirs])


def test_a_later_cost_of_several_coins_shows_no_share_before_the_desk_has_made_it(anna, stocked):
    first, second = stocked.ids[:2]
    with browsers.offline(anna.context):
        act(anna, "cost", coins=[{"coin": first}, {"coin": second}], costs=[{"what": "grading", "cents": 3_501}], date="2026-03-16")
        assert [anna.card(key)["own"]["cost"] for key in (first, second)] == [None, None]
    anna.sync()
    assert sum(anna.card(key)["own"]["cost"] for key in (first, second)) == 5_000 + 5_001 + 3_501


def told(card):
    """Whereabouts, the sale that stands, and in what list the stock shows it."""
    sale = card["own"]["sale"]
    return place(card) | {"cost": card["own"]["cost"], "sale": sale and (sale["fact"], sale["gain"])}


def listed(anna, keys):
    """How the stock list and its filter by state show coins."""
    rows = {key: anna.run(f"engine.search('{key}')")["rows"][0]["state"] for key in keys}
    assert all(any(row["id"] == key for row in anna.run(f"engine.search('{key}', {{state: '{state}'}})")["rows"]) for key, state in rows.items())
    return rows


def test_entries_in_an_odd_order_are_painted_as_the_desk_takes_them(anna, stocked):
    again, never, gone, lent, undone, graded = keys = stocked.ids[:6]
    day = {"date": "2026-03-17"}
    act(anna, "sale", coin=again, price=20_000, **day)
    first = last(anna, "sale")
    act(anna, "return", of=first, coins=[again], refund=20_000, **day)
    act(anna, "sale", coin=again, price=21_000, **day)
    act(anna, "away", coins=[gone], why="display", **day)
    away = last(anna, "away")
    act(anna, "sale", coin=gone, price=9_000, **day)
    for key in (lent, undone):
        act(anna, "memo", way="out", kind="memo", coins=[{"coin": key, "net": 100}], due="2026-04-16", **day, **{"with": "R. Holt"})
    act(anna, "sale", coin=lent, price=9_000, **day)
    unsold = last(anna, "sale")
    act(anna, "back", coins=[undone], **day)
    came = last(anna, "back")
    act(anna, "sale", coin=graded, price=20_000, **day)
    act(anna, "cost", coins=[{"coin": graded}], costs=[{"what": "grading", "cents": 3_500}], **day)
    late = last(anna, "cost")
    anna.sync()
    assert anna.state()["refused"] == 0
    anna.context.set_offline(True)
    act(anna, "return", of=first, coins=[again], refund=1, **day)  # it was sold again since: the desk refuses it
    act(anna, "back", coins=[never], **day)  # never away
    act(anna, "void", of=away)  # sold since
    act(anna, "void", of=unsold)  # sold out of the memo, where it is again
    act(anna, "void", of=came)
    act(anna, "void", of=late)  # a cost after the sale
    act(anna, "lost", coin=again, how="lost", **day)  # sold: it cannot be lost
    painted, rows = [told(anna.card(key)) for key in keys], listed(anna, keys)
    assert list(rows.values()) == ["sold", "in stock", "sold", "on memo", "on memo", "sold"]
    anna.context.set_offline(False)
    anna.sync()
    assert anna.state()["refused"] == 2
    assert [told(stocked.card(key)) for key in keys] == painted
    assert listed(anna, keys) == rows and [told(anna.card(key)) for key in keys] == painted


def test_a_lot_is_followed_piece_by_piece(anna, stocked):
    day = {"date": "2026-03-17"}
    lot = anna.run("engine.newId()")
    act(anna, "purchase", bought=[{"coin": lot, "set": SAID, "pieces": 10}], costs=COSTS, **day)
    act(anna, "ticket", sold=[{"coin": lot, "pieces": 3}], price=900, **day)
    first = last(anna, "ticket")
    act(anna, "ticket", sold=[{"coin": lot, "pieces": 2}], price=800, **day)
    anna.sync()
    anna.context.set_offline(True)
    act(anna, "return", of=first, coins=[lot], refund=900, **day)
    act(anna, "lost", coin=lot, pieces=4, how="lost", **day)
    act(anna, "away", coins=[lot], why="grading", **day)
    assert (anna.card(lot)["left"], anna.card(lot)["state"]) == (4, "at grading")
    act(anna, "back", coins=[lot], **day)
    act(anna, "back", coins=[lot], **day)  # and what was lost is found
    painted = place(anna.card(lot))
    assert (painted["left"], painted["state"]) == (8, "in stock")
    anna.context.set_offline(False)
    anna.sync()
    assert anna.state()["refused"] == 0 and place(stocked.card(lot)) == painted


def test_a_helpers_phone_paints_the_same_states(stocked, phone):
    from tests.engine.conftest import Phone

    till = Phone(phone, stocked).pair("helper")
    gone, never, away = keys = stocked.ids[:3]
    day = {"date": "2026-03-17"}
    act(till, "away", coins=[gone], why="display", **day)
    first = last(till, "away")
    act(till, "sale", coin=gone, price=9_000, **day)
    act(till, "away", coins=[away], why="grading", **day)
    second = last(till, "away")
    till.sync()
    till.context.set_offline(True)
    act(till, "void", of=first)  # sold since
    act(till, "back", coins=[never], **day)
    act(till, "void", of=second)
    painted = [place(till.card(key)) for key in keys]
    assert [one["state"] for one in painted] == ["sold", "in stock", "in stock"] and not any("own" in till.card(key) for key in keys)
    till.context.set_offline(False)
    till.sync()
    assert [place(stocked.card(key)) for key in keys] == painted


def test_more_pieces_of_a_lot_and_a_cost_that_nobody_said(anna, stocked):
    lot, unsaid, free = (anna.run("engine.newId()") for _ in range(3))
    act(anna, "purchase", bought=[{"coin": lot, "set": SAID, "pieces": 10}], costs=COSTS, date="2026-03-14")
    anna.sync()
    anna.context.set_offline(True)
    act(anna, "purchase", bought=[{"coin": lot, "set": {}, "pieces": 5}], costs=COSTS, date="2026-03-15", **{"from": "Ines Calloway"})
    act(anna, "purchase", bought=[{"coin": unsaid, "set": TYPED}], costs=[], date="2026-03-15")
    act(anna, "purchase", bought=[{"coin": free, "set": TYPED}], costs=[{"what": "price", "cents": 0}], date="2026-03-15")
    told = lambda card: (place(card), card["own"]["cost"], card["own"]["costs"])  # noqa: E731
    painted = [told(anna.card(key)) for key in (lot, unsaid, free)]
    assert painted[0][0]["left"] == 15 and [cost for _, cost, _ in painted] == [2 * 5_413, None, 0]
    anna.context.set_offline(False)
    anna.sync()
    assert [told(stocked.card(key)) for key in (lot, unsaid, free)] == painted
    assert {(line.get("pieces"), line.get("from")) for line in painted[0][2]} == {(None, None), (5, "Ines Calloway")}


def test_a_receipt_and_pieces_of_a_lot_of_two_purchases(anna, stocked):
    """What is left of each purchase, and the photo of a receipt, are on the card before the desk has answered as they are after it."""
    lot = new_id()
    with stocked.book.connected():
        deals = [stocked.book.act("purchase", {"bought": [{"coin": lot, "set": about, "pieces": pieces}], "date": "2026-03-14",
                                               "costs": [{"what": "price", "cents": cents}, {"what": "tax", "cents": 701}]}).fact
                 for about, pieces, cents in (({"title": "Culls"}, 20, 20_003), ({}, 10, 15_001))]  # fmt: skip
    anna.sync()
    anna.context.set_offline(True)
    act(anna, "ticket", sold=[{"coin": lot, "pieces": 4, "of": deals[1]}], price=9_000, date="2026-03-15")
    act(anna, "lost", coin=lot, pieces=3, how="missing", date="2026-03-16")
    act(anna, "ticket", sold=[{"coin": lot, "pieces": 2, "of": deals[0]}], price=500, date="2026-03-17")
    act(anna, "back", coins=[lot], date="2026-03-18")
    anna.run((PHOTO % lot).replace("'photo', {", f"'receipt', {{of: '{deals[0]}', ").replace(", side: 'reverse'", ""))
    painted = anna.card(lot)
    anna.context.set_offline(False)
    anna.sync()
    card = stocked.card(lot)
    told = lambda one: [(row["fact"], row["left"], row["costs"]) for row in one["own"]["units"]]  # noqa: E731
    assert told(painted) == told(card) and len(told(card)) > 2
    assert painted["own"]["receipts"] == card["own"]["receipts"] and (painted["left"], card["left"]) == (24, 24)
    anna.context.set_offline(True)
    receipt = next(one["fact"]["id"] for one in anna.run("engine.entries()") if one["fact"]["kind"] == "receipt")
    act(anna, "void", of=receipt)
    assert "receipts" not in anna.card(lot)["own"]
