"""A show at the desk: pack list, count, cash drawer, close; contacts and sightings."""

import re

import pytest

from exergue.labels import ids
from exergue.records import counting, reading, show_money
from exergue.records.tables import Contact, Show, Sighting, Want

SHOW = {"name": "Harbour Coin Fair", "starts": "2026-05-02", "ends": "2026-05-03", "float": "300", "budget": "500"}


@pytest.fixture
def show(ada):
    """The address of a show's pages."""
    ada.post("/desk/shows/new", SHOW)
    return f"/desk/shows/{Show.get().id}"


def packed(ada, show, *coins, box="Box 1"):
    return ada.post(f"{show}/pack", {"labels": "\n".join(coins), "box": box, "do": "in"})


def counted(ada, show, *coins, at="Box 1"):
    return ada.post(f"{show}/count", {"labels": " ".join(coins), "at": at, "round": ""})


def press(ada, show, coin, do, note=""):
    """Press the button of a coin's difference in the last round."""
    key = Show.get().id if show != "/desk" else None
    rounds = counting.rounds(key)
    told = counting.reconciled(key, rounds[-1]["id"], "2026-05-02", str).differences
    one = next(one for one in told if one.coin == coin)
    address = f"{show}/count/settle" if key else "/desk/counts/settle"
    return ada.post(address, {"round": rounds[-1]["id"], "key": one.key, "do": do, "note": note})


def test_coins_are_packed_by_label_and_by_place_and_taken_out(ada, buy, show, book):
    first, other, third = buy(place="Case 1"), buy(place="Case 1"), buy(place="Case 2")
    assert packed(ada, show, ids.show(third)).status_code == 302
    ada.post(f"{show}/pack", {"place": "Case 1", "box": "Box 2", "do": "in"})
    page = ada.get(f"{show}/pack").text
    assert page.index("Box 1") < page.index(ids.show(third)) < page.index("Box 2")
    ada.post(f"{show}/pack", {"coin": [first, other], "do": "out"})
    assert book.card("show", Show.get().id)["packed"] == 1


@pytest.mark.parametrize(("typed", "said"), [("7K3M9", "“7K3M9”: A coin ID has 10 characters; this has 5."), ("", "Say which coins")])
def test_a_bad_label_is_told_and_what_was_typed_stays(ada, show, typed, said):
    answer = packed(ada, show, typed)
    assert answer.status_code == 400 and said in answer.text and typed in answer.text
    answer = counted(ada, show, typed)
    assert answer.status_code == 400 and typed in answer.text


def test_a_count_is_held_against_the_pack_list_and_its_buttons_settle_it(ada, buy, show, book):
    here, home, stray = buy(place="Case 1"), buy(place="Case 1"), buy(place="Case 3")
    packed(ada, show, here, home)
    counted(ada, show, here, stray)
    page = ada.get(f"{show}/count").text
    assert "2 differences to settle" in page and "never packed" in page and "It stayed at home" in page
    press(ada, show, home, "unpack")
    press(ada, show, stray, "pack")
    assert "Everything agrees" in ada.get(f"{show}/count").text
    assert book.card("coin", stray)["packed"]["box"] == "Box 1"


def test_words_settle_a_difference_and_must_be_given(ada, buy, show):
    coin = buy()
    packed(ada, show, coin)
    counted(ada, show, ids.new_id())
    press(ada, show, coin, "settle")
    assert "in a few words" in ada.get(f"{show}/count").text
    press(ada, show, coin, "settle", "Lent to a friend at table 4")
    assert "Explained: Lent to a friend at table 4" in ada.get(f"{show}/count").text


def test_a_button_of_an_old_page_changes_nothing(ada, buy, show, book):
    coin = buy()
    packed(ada, show, coin)
    counted(ada, show, ids.new_id())
    press(ada, show, coin, "lost")
    before = book.seq
    told = counting.rounds(Show.get().id)[-1]["id"]
    answer = ada.post(f"{show}/count/settle", {"round": told, "key": f"{told}/missing/{coin}", "do": "lost"}, follow_redirects=True)
    assert "settled already" in answer.text and book.seq == before


def test_the_whole_stock_is_counted_too(ada, buy, book):
    coin = buy(place="Case 1")
    ada.post("/desk/counts", {"labels": coin, "at": "Case 2", "round": ""})
    assert "counted in Case 2" in ada.get("/desk/counts").text
    press(ada, "/desk", coin, "place")
    assert book.card("coin", coin)["place"] == "Case 2"


def test_the_drawer_is_counted_by_denomination_and_said_to_be_over_or_short(ada, show, book):
    assert "Counted" not in ada.get(f"{show}/drawer").text
    ada.post(f"{show}/drawer", {"note-10000": "2", "note-2000": "4", "coin-25": "3", "free-0": "1", "worth-0": "2.50"})
    assert show_money.drawer(Show.get().id)["cents"] == 28_325
    page = ada.get(f"{show}/drawer").text
    assert "Short" in page and "$16.75" in page
    ada.post(f"{show}/drawer/settle", {"note": "Coffee without a receipt"})
    assert "Explained: Coffee" in ada.get(f"{show}/drawer").text


@pytest.mark.parametrize(("typed", "said"), [({"note-10000": "two"}, "is no number"), ({"free-0": "2"}, "Give what one"),
                                             ({"free-0": "2", "worth-0": "x"}, "x")])  # fmt: skip
def test_a_bad_number_in_the_drawer_is_told_beside_its_field(ada, show, typed, said):
    answer = ada.post(f"{show}/drawer", {"note-500": "7"} | typed)
    assert answer.status_code == 400 and said in answer.text and 'value="7"' in answer.text
    assert show_money.drawer(Show.get().id) is None


def test_a_show_closes_with_differences_open_and_they_stay_under_needs_a_look(ada, buy, show, book):
    coin = buy()
    packed(ada, show, coin)
    counted(ada, show, ids.new_id())
    ada.post(f"{show}/drawer", {"note-10000": "1"})
    ada.post(f"{show}/close", {"do": "close"})
    page = ada.get("/desk/looks").text
    assert "Harbour Coin Fair: closed with differences" in page and "2 differences" in page and "cash drawer" in page
    assert re.search(r'class="count">1</span>', page) and "closed with differences" in ada.get("/desk/").text
    for one in counting.reconciled(Show.get().id, counting.rounds(Show.get().id)[-1]["id"], "", str).open:
        press(ada, show, one.coin, "settle", "known")
    ada.post(f"{show}/drawer/settle", {"note": "known"})
    assert "closed with differences" not in ada.get("/desk/looks").text
    ada.post(f"{show}/close", {"do": "open"})
    assert "closed" not in book.card("show", Show.get().id)


def test_the_close_is_a_page_a_pdf_and_a_csv(ada, buy, show, book):
    coin = buy(cents=10_000)
    packed(ada, show, coin)
    day = {"date": "2026-05-02", "show": Show.get().id}
    book.act("sale", {"coin": coin, "price": 25_000, "payment": "cash"} | day)
    book.act("money", {"what": "expense", "cents": 4_000, "how": "cash", "about": "table"} | day)
    page = ada.get(f"{show}/close").text
    for said in ("150.00", "510.00", "Payments by kind", "Best and worst sale", "table", "Budget for coins"):
        assert said in page
    assert b"Gross profit" in ada.get(f"{show}/close.csv").data
    assert ada.get(f"{show}/close.pdf").data.startswith(b"%PDF")
    assert "$510.00" in ada.get(show).text and "$500.00" in ada.get(show).text


def test_contacts_and_sightings_are_entered_and_find_each_other(ada, buy, book):
    ada.post("/desk/contacts/new", {"name": "Ines Calloway", "table": "12"})
    ada.post("/desk/wants/new", {"title": "A large cent", "priority": "usual"})
    contact, want = Contact.get(), Want.get()
    assert "Not seen anywhere yet" in ada.get(f"/desk/wants/{want.id}").text
    ada.post("/desk/sightings/new", {"want": want.id, "contact": contact.id, "ask": "90", "offer": "80", "answer": "no", "date": "2026-05-02", "grade": "f12"})
    coin = buy()
    book.act("sale", {"coin": coin, "price": 5_000, "date": "2026-05-02", "to": "Ines Calloway"})
    for page in (ada.get("/desk/sightings").text, ada.get(f"/desk/contacts/{contact.id}").text, ada.get(f"/desk/wants/{want.id}").text):
        assert "$90.00" in page and "Ines Calloway" in page
    assert "Sold to Ines Calloway" in ada.get(f"/desk/contacts/{contact.id}").text
    seen = Sighting.get()
    form = {"want": want.id, "contact": contact.id, "ask": "85", "date": "2026-05-02", "grade": "F-12", "answer": "yes"}
    ada.post(f"/desk/sightings/{seen.id}", form)
    assert Sighting.get().ask == 8_500
    ada.post(f"/desk/sightings/{seen.id}/drop"), ada.post(f"/desk/contacts/{contact.id}/drop")
    assert reading.sightings() == [] and reading.contacts() == []
    assert ada.get(f"/desk/contacts/{contact.id}").status_code == 404


def test_a_sighting_must_say_what_was_seen(ada):
    assert "Say what was seen" in ada.post("/desk/sightings/new", {"date": "2026-05-02"}).text
    assert not Sighting.select().exists()


def test_strangers_see_none_of_it(charlie, ada, show):
    for path in (f"{show}/pack", f"{show}/count", f"{show}/drawer", f"{show}/close", f"{show}/close.csv", "/desk/counts", "/desk/contacts", "/desk/sightings"):
        assert charlie.get(path).status_code in (302, 401, 403)


def test_the_journal_says_it_all_in_words(ada, buy, show):
    coin = buy()
    packed(ada, show, coin), counted(ada, show, coin)
    ada.post(f"{show}/drawer", {"note-10000": "3"}), ada.post(f"{show}/close", {"do": "close"})
    page = ada.get("/desk/journal").text
    for said in ("Packed 1 coin for Harbour Coin Fair", "Counted 1 label at", "Counted the cash drawer", "Closed Harbour Coin Fair"):
        assert said in page
