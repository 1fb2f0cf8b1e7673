"""The photo of a receipt that is added to a deal which is recorded already: at the desk, from a phone, in the zip; and taken away."""

import hashlib
import io
import re
import zipfile

import pytest
from desk.test_photos import jpeg

from exergue.labels import ids
from exergue.records import export, photos, reading, refold
from exergue.records.clock import now_ms
from exergue.records.tables import Fact
from exergue.records.uuid7 import uuid7


@pytest.fixture
def deals(book, buy):
    """One deal of each kind that may have a receipt, {kind: (entry, a coin of it)}."""
    coin, gift, came, sold = buy(), ids.new_id(), ids.new_id(), buy(year=1807)
    made = {"purchase": (Fact.get(Fact.kind == "purchase").id, coin)}
    for kind, key, body in (
        ("acquired", gift, {"how": "found", "coins": [{"coin": gift, "set": {"title": "Token"}}], "date": "2026-03-14"}),
        ("cost", coin, {"coins": [{"coin": coin}], "costs": [{"what": "grading", "cents": 2_500}], "date": "2026-03-15"}),
        ("ticket", sold, {"sold": [{"coin": sold}], "price": 20_000, "date": "2026-03-16"}),
        ("trade", came, {"out": [{"coin": coin, "value": 100}], "in": [{"coin": came, "set": {"title": "Medal"}, "value": 100}], "boot": 0,
                         "date": "2026-03-17"}),
    ):  # fmt: skip
        made[kind] = (book.act(kind, body).fact, key)
    return made


def add(ada, deal: str, data: bytes | None, follow=True):
    form = {"csrf_token": ada.token} | ({"file": (io.BytesIO(data), "receipt.jpg")} if data is not None else {})
    return ada.client.post(f"/desk/deals/{deal}/receipts", data=form, content_type="multipart/form-data", follow_redirects=follow)


@pytest.mark.parametrize("kind", ["purchase", "acquired", "cost", "ticket", "trade"])
def test_a_recorded_deal_is_given_the_photo_of_its_receipt(ada, book, deals, kind):
    deal, coin = deals[kind]
    assert "Add the receipt" in ada.get(f"/desk/deals/{deal}").text
    page = add(ada, deal, jpeg()).text
    photo = Fact.get(Fact.kind == "receipt").body["photo"]
    assert f"/desk/photos/{photo}/full" in page and "Add another receipt" in page
    assert ada.get(f"/desk/photos/{photo}/full").mimetype == "image/jpeg"
    assert reading.coins([coin])[0]["own"]["receipts"] == {deal: [photo]}
    assert "receipts" not in book.card("coin", coin, "helper")
    assert f"/desk/photos/{photo}/full" in ada.get(f"/desk/coins/{coin}").text and refold.verify() == []


def test_receipts_of_every_deal_that_stands_are_in_the_zip(ada, book, deals):
    sale, trade = deals["ticket"][0], deals["trade"][0]
    for deal in (sale, sale, trade):
        add(ada, deal, jpeg())
    out = io.BytesIO()
    assert export.write_zip(book, out)["receipts"] == 3
    names = {name for name in zipfile.ZipFile(out).namelist() if name.startswith("receipts/")}
    assert names == {f"receipts/2026-03-16-{sale}.jpg", f"receipts/2026-03-16-{sale}-2.jpg", f"receipts/2026-03-17-{trade}.jpg"}
    book.act("void", {"of": sale})
    assert export.write_zip(book, io.BytesIO())["receipts"] == 1 and refold.verify() == []


def test_a_receipt_is_taken_away_again(ada, book, deals):
    deal, coin = deals["ticket"]
    page = add(ada, deal, jpeg()).text
    remove = re.search(rf'action="(/desk/deals/{deal}/receipts/[^"]+/remove)"', page).group(1)
    assert "/full" not in ada.post(remove, follow_redirects=True).text
    assert "receipts" not in reading.coins([coin])[0]["own"] and refold.verify() == []
    assert export.write_zip(book, io.BytesIO())["receipts"] == 0
    assert ada.post(f"/desk/deals/{deal}/receipts/{deal}/remove").status_code == 404  # not the deal itself
    assert reading.coins([coin])[0]["state"] == "sold"


def test_what_is_no_photo_or_no_deal_is_said(ada, book, deals):
    deal, _ = deals["purchase"]
    assert "not a photo that can be read" in add(ada, deal, b"no picture").text
    assert "Choose a photo first" in add(ada, deal, None).text
    assert add(ada, str(uuid7(now_ms())), jpeg()).status_code == 404
    book.act("void", {"of": deals["trade"][0]})
    assert add(ada, deals["trade"][0], jpeg()).status_code == 404
    assert "Add the receipt" not in ada.get(f"/desk/deals/{deals['trade'][0]}").text
    assert Fact.select().where(Fact.kind == "receipt").count() == 0


def test_a_phones_receipt_is_waited_for_and_comes_with_its_bytes(ada, book, phone, deals):
    deal, coin = deals["cost"]
    data = jpeg()
    body = {"of": deal, "photo": uuid7(now_ms()), "digest": hashlib.sha256(data).hexdigest(), "coin": coin}
    assert phone("receipt", body).verdict == "applied"
    assert "still on the phone" in ada.get(f"/desk/deals/{deal}").text
    photos.store(book.photos, body["photo"], data)
    assert f"/desk/photos/{body['photo']}/full" in ada.get(f"/desk/deals/{deal}").text
    assert phone("receipt", body).code == "photo_used"
    assert phone("receipt", body | {"of": body["photo"], "photo": deal}).code == "no_such_deal"


def test_a_purchase_that_brought_its_receipt_has_it_on_the_card_until_it_is_undone(book, ada):
    coin, photo = ids.new_id(), uuid7(now_ms())
    deal = book.act("purchase", {"bought": [{"coin": coin, "set": {"title": "Token"}}], "costs": [{"what": "price", "cents": 5}], "date": "2026-03-14",
                                 "receipt": photo}).fact  # fmt: skip
    assert reading.coins([coin])[0]["own"]["receipts"] == {deal: [photo]}
    book.act("void", {"of": deal})
    assert book.card("coin", coin) is None and refold.verify() == []


def test_a_trade_may_name_its_receipt_itself(ada, book, buy):
    goes, comes, photo = buy(), ids.new_id(), str(uuid7(now_ms()))
    trade = book.act("trade", {"out": [{"coin": goes, "value": 100}], "in": [{"coin": comes, "set": {"title": "Medal"}, "value": 100}], "boot": 0,
                               "date": "2026-03-17", "receipt": photo}).fact  # fmt: skip
    assert "Its photo is still on the phone." in ada.get(f"/desk/deals/{trade}").text
    assert [card["own"]["receipts"] for card in reading.coins([goes, comes])] == [{trade: [photo]}] * 2 and refold.verify() == []
