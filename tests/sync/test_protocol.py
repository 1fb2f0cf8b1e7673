"""Cards come down after a cursor, redacted by role; a restored desk and a wiped phone are noticed."""

import gzip
import json

import pytest

from exergue.records import cards, devices, journal
from exergue.records.clock import now_ms
from exergue.records.store import write
from exergue.records.verdicts import JournalError
from exergue.sync import protocol, snapshot
from exergue.sync.roles import KINDS
from tests.records.conftest import START, Phone


def ask(book, phone, cursor=0, facts=(), **more):
    device = devices.get(phone.device.id)
    asked = {"book": book.id, "epoch": book.epoch, "cursor": cursor, "facts": list(facts)} | more
    return json.loads(protocol.sync(book, device, asked))


@pytest.fixture
def anna(book):
    return Phone(book, "Anna's phone")


@pytest.fixture
def helper(book):
    return Phone(book, "Till", role="helper")


def test_what_one_phone_did_comes_to_the_other(book, anna):
    ben = Phone(book, "Ben's phone")
    start = ask(book, ben)["cursor"]
    coin = anna.new_id()
    fact = anna.fact("purchase", bought=[{"coin": coin, "set": {"year": 1806}}], costs=[], date="2026-03-14")
    assert [v["verdict"] for v in ask(book, anna, facts=[fact])["verdicts"]] == ["applied"]
    answer = ask(book, ben, start)
    assert [(kind, key) for _, kind, key, _ in answer["cards"]] == [("coin", coin)]
    assert answer["cards"][0][3]["year"] == 1806 and ask(book, ben, answer["cursor"])["cards"] == []


def test_a_helper_gets_no_cost_no_floor_no_wants(book, anna, helper):
    coin, _ = anna.buy(cents=98_765, set={"floor": 43_210, "ask": 5})
    anna.say("want.add", want="01890000-0000-7000-8000-000000000001", set={"ceiling": 77_777})
    anna.sell(coin, 66_666)
    text = json.dumps(ask(book, helper)) + "".join(snapshot.lines(book, "helper"))
    for secret in ("98765", "43210", "77777", "66666", '"own"'):
        assert secret not in text
    assert coin in text
    assert "98765" in json.dumps(ask(book, anna))


def test_a_deleted_card_comes_as_a_tombstone(book, anna):
    coin, verdict = anna.buy()
    cursor = ask(book, anna)["cursor"]
    anna.say("void", of=verdict.fact)
    assert [c[1:] for c in ask(book, anna, cursor)["cards"]] == [["coin", coin, None]]


def test_long_changes_come_in_pages_and_none_is_missed(book, anna, monkeypatch):
    monkeypatch.setattr(protocol, "PAGE", 4)
    wanted = {anna.buy()[0] for _ in range(11)}
    cursor, got, pages = 0, set(), 0
    while True:
        answer = ask(book, anna, cursor)
        got |= {key for _, kind, key, _ in answer["cards"] if kind == "coin"}
        pages, cursor = pages + 1, answer["cursor"]
        if not answer["more"]:
            break
    assert got == wanted and pages >= 3


def test_the_digest_is_that_of_the_cards_a_device_should_hold(book, anna, helper):
    _, bought = anna.buy()
    anna.buy()
    anna.say("void", of=bought.fact)
    for phone in (anna, helper):
        held = {}
        answer = ask(book, phone)
        for seq, kind, key, card in answer["cards"]:
            held[(kind, key)] = seq
            if card is None:
                del held[(kind, key)]
        total = sum(cards.mark(kind, key, seq) for (kind, key), seq in held.items()) % cards.SUM_MODULUS
        assert answer["digest"] == {"count": len(held), "sum": total}


def test_the_first_sync_streams_every_card_in_whole_packs(book, anna):
    coins = {anna.buy()[0] for _ in range(40)}
    head, *packs, end = [json.loads(line) for line in snapshot.lines(book, "owner")]
    assert end == {"end": True} and head["seq"] == book.seq
    names = [pack["pack"] for pack in packs]
    assert len(names) == len(set(names)) and names == sorted(names)
    got = {key for pack in packs for _, key, _ in pack["cards"] if pack["pack"].startswith("coin/")}
    assert got == coins and head["total"] == sum(len(pack["cards"]) for pack in packs)


@pytest.mark.parametrize("whole_packs", [0, 1, 7, 20])
def test_a_broken_first_sync_goes_on_where_it_stopped(book, anna, whole_packs):
    for _ in range(30):
        anna.buy()
    head, *packs, _ = [json.loads(line) for line in snapshot.lines(book, "owner")]
    after = f"{packs[whole_packs - 1]['pack'].split('/')[0]}/{packs[whole_packs - 1]['cards'][-1][1]}"
    after = after if whole_packs else ""
    late, _ = anna.buy()
    again, *rest, _ = [json.loads(line) for line in snapshot.lines(book, "owner", after, head["seq"])]
    assert again["seq"] == head["seq"]
    before = sum(len(p["cards"]) for p in packs[:whole_packs])
    assert again["done"] in (before, before + 1)  # the late coin may have sorted before the break
    held = {key for p in packs[:whole_packs] + rest for _, key, _ in p["cards"]}
    then = {key for _, _, key, _ in ask(book, anna, head["seq"])["cards"]}
    assert late in then and held | then >= {key for p in packs for _, key, _ in p["cards"]}


def test_the_stream_is_plain_gzip(book, anna):
    anna.buy()
    packed = b"".join(snapshot.compressed(snapshot.lines(book, "owner")))
    assert gzip.decompress(packed).decode() == "".join(snapshot.lines(book, "owner"))


def test_another_book_is_refused(book, anna):
    with pytest.raises(JournalError) as problem:
        protocol.sync(book, devices.get(anna.device.id), {"book": "another", "epoch": book.epoch, "facts": []})
    assert problem.value.code == "other_book"


def test_a_phone_of_before_the_restore_is_told_where_to_go_on(book, anna):
    anna.buy()
    with write():
        journal.set_meta("epoch", "another")
    with pytest.raises(JournalError) as problem:
        ask(book, anna, epoch="as it was")
    assert problem.value.code == "restored" and problem.value.more == {"epoch": "another", "next_n": 2}


def test_numbers_that_went_backwards_are_noticed_as_a_restore(book, anna):
    epoch = book.epoch
    with pytest.raises(JournalError) as problem:
        ask(book, anna, cursor=book.seq + 50, epoch=epoch)
    assert problem.value.code == "restored" and book.epoch != epoch
    assert problem.value.more["epoch"] == book.epoch
    assert [notice.kind for notice in devices.notices()] == ["put_back"]


@pytest.mark.parametrize("role, ahead", [("helper", 50), ("helper", 2**50), ("owner", 2**50), ("owner", 10_000_001)])
def test_a_cursor_that_cannot_be_sends_its_phone_to_the_start_and_no_other(book, role, ahead):
    phone = Phone(book, "Odd", role=role)
    epoch = book.epoch
    with pytest.raises(JournalError) as problem:
        ask(book, phone, cursor=book.seq + ahead)
    assert problem.value.code == "restored" and problem.value.more["epoch"] == epoch
    assert book.epoch == epoch and devices.notices() == []
    assert ask(book, phone, cursor=0)["cursor"] == book.seq


def test_a_wiped_phone_goes_on_and_the_desk_is_told(book, anna):
    anna.buy()
    ask(book, anna, wiped=True)
    (notice,) = devices.notices()
    assert notice.kind == "wiped" and "number 1" in notice.text
    assert anna.buy()[1].verdict == "applied"


def test_a_cleared_phone_is_told_once_until_an_answer_reaches_it(book, anna):
    anna.buy()
    ask(book, anna, wiped=True)
    facts = [anna.fact("note", coin=anna.new_id(), text="after")]
    for _ in range(3):
        ask(book, anna, wiped=True)
        ask(book, anna, wiped=True, facts=facts)
    first, = (notice for notice in devices.notices() if "number 1;" in notice.text)
    devices.mark_seen(first.id)
    ask(book, anna, wiped=True, facts=facts)
    assert [notice.text for notice in devices.notices() if "number 1;" in notice.text] == []


def test_what_a_phone_brings_after_a_restore_is_told_as_one_sum(book, anna):
    with write():
        journal.set_meta("restored_ms", str(START + 1_000_000))
    for i in range(3):
        facts = [anna.fact("note", coin=anna.new_id(), text=f"{i} {j}") for j in range(2)]
        for _ in range(2):
            ask(book, anna, facts=facts)
    (notice,) = devices.notices()
    assert "brought 6 entries" in notice.text
    devices.mark_seen(notice.id)
    ask(book, anna, facts=facts)
    assert devices.notices() == []


def test_a_clock_that_is_slow_does_not_make_new_entries_old(book, anna):
    """The phone is a year slow, and says so with every request."""
    year, now = 365 * 86_400_000, now_ms()
    with write():
        journal.set_meta("restored_ms", str(now - 1_000))
    fact = anna.fact("note", coin=anna.new_id(), text="made today", when=now - year)
    ask(book, anna, facts=[fact], sent_ms=now - year)
    assert devices.notices() == []


def test_entries_that_no_phone_holds_any_more_are_told_as_lost(book, anna):
    anna.n = 5
    fact = anna.fact("note", coin=anna.new_id(), text="x")
    ask(book, anna, facts=[fact], lost_before=6)
    assert [n.kind for n in devices.notices()] == ["lost"]


@pytest.mark.parametrize("lost_before", [2**31, 2**52, 1_000_002])
def test_a_gap_beyond_all_reason_does_not_use_the_phones_numbers_up(book, anna, lost_before):
    ask(book, anna, lost_before=lost_before)
    assert devices.get(anna.device.id).next_n == 1 and devices.notices() == []


def test_a_gap_is_passed_only_together_with_the_entries_after_it(book, anna):
    anna.n = 5
    facts = [anna.fact("note", coin=anna.new_id(), text="x"), anna.fact("note", coin=anna.new_id(), text="y")]
    with pytest.raises(JournalError):
        ask(book, anna, facts=facts[1:], lost_before=6)
    assert devices.get(anna.device.id).next_n == 1 and devices.notices() == []


@pytest.mark.parametrize("bad", [
    {"facts": None}, {"facts": {}}, {"cursor": -1}, {"cursor": "1"}, {"facts": [1]}, {"facts": [{}] * 501},
])  # fmt: skip
def test_a_request_that_is_none_is_refused(book, anna, bad):
    with pytest.raises(JournalError):
        protocol.sync(book, devices.get(anna.device.id), {"book": book.id, "epoch": book.epoch, "facts": []} | bad)


def test_every_role_has_its_kinds_and_only_known_ones():
    assert all(set(kinds) <= set(cards.MAKERS) for kinds in KINDS.values())
    assert list(KINDS["owner"]) == sorted(KINDS["owner"])


def test_a_card_that_joins_a_kept_pack_during_a_break_does_not_bring_half_a_pack(book, anna):
    show = "01890000-0000-7000-8000-00000000000{}"
    for i in range(3):
        book.act("show.add", {"show": show.format(i), "set": {"name": str(i)}})
    head, *packs, _ = [json.loads(line) for line in snapshot.lines(book, "owner")]
    kept = next(pack for pack in packs if pack["pack"].startswith("show/"))
    book.act("show.add", {"show": show.format(9), "set": {"name": "late"}})
    resumed = snapshot.lines(book, "owner", f"show/{kept['cards'][-1][1]}", head["seq"], head["prefix"])
    assert not any(json.loads(line).get("pack", "").startswith("show/") for line in resumed)
    assert show.format(9) in [key for _, _, key, _ in ask(book, anna, head["seq"])["cards"]]
