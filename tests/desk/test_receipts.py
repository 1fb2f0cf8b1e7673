"""The photo of a purchase's receipt: from the form to the pages, the zip and the backup."""

import io
import os
import re
import zipfile

from desk.test_photos import jpeg
from PIL import Image

from exergue.records import export
from exergue.records.backup import backup
from exergue.records.tables import Coin, Fact, PhotoFile

ADDRESS = "/desk/deals/purchase"
FORM = {"coins-0-title": "Store card", "price": "5", "date": "2026-03-14"}


def send(ada, data: bytes | None = None, **more):
    form = {"csrf_token": ada.token} | FORM | more
    if data is not None:
        form["receipt_file"] = (io.BytesIO(data), "receipt.jpg")
    return ada.client.post(ADDRESS, data=form, content_type="multipart/form-data")


def hidden(page: str, name: str) -> str:
    return re.search(rf'name="{name}"[^>]*value="([^"]*)"', page).group(1)


def record(ada, data: bytes) -> Fact:
    """Look, then record without choosing the file again, as a browser does."""
    page = send(ada, data, do="look").text
    answer = send(ada, do="record", seen=hidden(page, "seen"), receipt=hidden(page, "receipt"))
    assert answer.status_code == 302
    return Fact.get(Fact.kind == "purchase")


def test_a_receipt_is_kept_through_the_look_without_camera_details(ada):
    exif = Image.Exif()
    exif[0x010F] = "Secret Camera"
    fact = record(ada, jpeg(exif=exif.tobytes()))
    full = ada.get(f"/desk/photos/{fact.body['receipt']}/full")
    assert full.mimetype == "image/jpeg" and b"Secret Camera" not in full.data


def test_it_is_shown_with_the_deal_and_in_the_coins_history(ada):
    fact = record(ada, jpeg())
    for page in (f"/desk/deals/{fact.id}", f"/desk/coins/{Coin.get().id}"):
        assert f"/desk/photos/{fact.body['receipt']}/full" in ada.get(page).text


def test_it_goes_into_the_zip_and_the_backup(ada, book, tmp_path):
    fact = record(ada, jpeg())
    out = io.BytesIO()
    assert export.write_zip(book, out)["receipts"] == 1
    name = f"receipts/2026-03-14-{fact.id}.jpg"
    assert Image.open(io.BytesIO(zipfile.ZipFile(out).read(name))).size == (300, 200)
    backup(book, tmp_path / "backup.zip")
    held = zipfile.ZipFile(tmp_path / "backup.zip").namelist()
    assert any(fact.body["receipt"] in one for one in held)


def test_a_receipt_of_an_undone_purchase_is_left_out_of_the_zip(ada, book):
    book.act("void", {"of": record(ada, jpeg()).id})
    assert export.write_zip(book, io.BytesIO())["receipts"] == 0


def test_it_can_be_left_out_again(ada):
    page = send(ada, jpeg(), do="look").text
    again = send(ada, do="look", receipt=hidden(page, "receipt"), receipt_off="y").text
    assert hidden(again, "receipt") == ""


def test_what_is_no_photo_is_said_beside_the_field_and_the_rest_is_kept(ada):
    page = send(ada, b"no picture", do="look").text
    assert "not a photo that can be read" in page and 'value="Store card"' in page and 'name="seen"' not in page
    assert PhotoFile.select().count() == 0


def test_a_receipt_that_nobody_recorded_goes_after_a_day(ada, book):
    lost = hidden(send(ada, jpeg(), do="look").text, "receipt")
    kept = record(ada, jpeg((200, 100))).body["receipt"]
    for mark in (book.folder / "tmp").glob("*.receipt"):
        os.utime(mark, (0, 0))
    send(ada, jpeg((100, 100)), do="look")
    assert ada.get(f"/desk/photos/{lost}/full").status_code == 404
    assert ada.get(f"/desk/photos/{kept}/full").status_code == 200
