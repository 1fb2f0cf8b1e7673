"""What a stranger sees who scans a label: what the owner published, or a line that is the same for every other ID."""

import hashlib
import io

import pytest
from flask import Response
from PIL import Image

from exergue.labels import ids
from exergue.records import photos
from exergue.site import public

PHOTO = "01890000-0000-7000-8000-000000000001"
SECRETS = ("Box A", "$500.00", "500.00", "A. Seller", "old note", "95.00")


@pytest.fixture
def coin(book, buy):
    """A coin with much that no stranger may see."""
    key = buy(9_500, place="Box A", ask=80_000, floor=50_000)
    book.act("note", {"coin": key, "text": "old note"})
    return key


def publish(book, coin, *parts):
    before = book.card("coin", coin)["publish"]
    book.act("coin.edit", {"coin": coin, "base": {"publish": before}, "set": {"publish": sorted(parts)}})


def everything(answer) -> tuple:
    return answer.status_code, sorted(answer.headers.items()), answer.data


def test_unpublished_unknown_and_invalid_ids_get_the_very_same_answer(client, coin):
    answers = [client.get(f"/c/{text}") for text in (coin, ids.show(coin).lower(), ids.new_id(), "nonsense", "7K3M9QX2B5", "0" * 500)]
    answers.append(client.get(f"/C/{coin}"))
    assert {repr(everything(answer)) for answer in answers} == {repr(everything(answers[0]))}
    assert answers[0].status_code == 200
    assert (answers[0].headers["Cache-Control"], answers[0].headers["Vary"]) == ("no-store", "Cookie")
    assert "keep it safe" in answers[0].text


def test_a_coin_that_left_the_book_or_was_sold_is_as_an_unknown_one(client, book, coin, buy):
    unknown = everything(client.get(f"/c/{ids.new_id()}"))
    publish(book, coin, "identity", "price")
    book.act("sale", {"coin": coin, "price": 70_000, "date": "2026-03-15"})
    assert everything(client.get(f"/c/{coin}")) == unknown


@pytest.mark.parametrize("parts, shown, hidden", [
    (["identity"], ["Half cent, Draped Bust", "1806"], ["VF-20", "$800.00"]),
    (["grade"], ["VF-20", "Very Fine 20"], ["Draped Bust", "$800.00"]),
    (["price"], ["$800.00"], ["Draped Bust", "VF-20"]),
    (["grade", "identity", "price"], ["Half cent, Draped Bust", "VF-20", "$800.00"], []),
])  # fmt: skip
def test_only_what_was_published_is_shown_and_never_a_cost(client, book, coin, parts, shown, hidden):
    publish(book, coin, *parts)
    page = client.get(f"/c/{coin}").text
    for text in shown:
        assert text in page
    for text in (*hidden, *SECRETS):
        assert text not in page


def test_the_owners_own_line_is_shown(client, book, coin):
    book.act("setting", {"key": "found_line", "value": "Please call 555 0100 <b>."})
    for text in (coin, "nonsense"):
        assert "Please call 555 0100 &lt;b&gt;." in client.get(f"/c/{text}").text


def test_a_strangers_page_sets_no_cookie_and_runs_no_script(client, book, coin):
    publish(book, coin, "identity")
    answer = client.get(f"/c/{coin}")
    assert "Set-Cookie" not in answer.headers
    assert "<script" not in answer.text


@pytest.fixture
def photographed(book, coin):
    out = io.BytesIO()
    Image.new("RGB", (40, 40)).save(out, "JPEG")
    photos.store(book.photos, PHOTO, out.getvalue())
    digest = hashlib.sha256(out.getvalue()).hexdigest()
    book.act("photo", {"coin": coin, "photo": PHOTO, "side": "obverse", "digest": digest})
    return coin


def test_photos_are_shown_only_when_they_are_published(client, book, photographed):
    address = f"/c/{photographed}/{PHOTO}"
    missing = everything(client.get(f"/c/{ids.new_id()}/{PHOTO}"))
    assert everything(client.get(address)) == missing
    publish(book, photographed, "identity", "grade", "price")
    assert everything(client.get(address)) == missing
    publish(book, photographed, "photos")
    assert client.get(address).mimetype == "image/jpeg"
    assert address in client.get(f"/c/{photographed}").text


def test_a_published_coin_does_not_show_the_photos_of_another(client, book, photographed, buy):
    other = buy()
    publish(book, other, "photos")
    assert client.get(f"/c/{other}/{PHOTO}").status_code == 404


@pytest.fixture
def paired(app, phone):
    """A paired phone's browser."""
    browser = app.test_client()
    browser.set_cookie("exergue-device", phone.token)
    return browser


def test_a_paired_phone_gets_the_app_and_a_revoked_one_the_public_page(paired, coin, phone, monkeypatch):
    from exergue.records import devices

    monkeypatch.setattr(public.files, "send", lambda folder, name: Response(f"{folder}/{name}"))
    assert paired.get(f"/C/{coin}").text == "web/index.html"
    devices.revoke(phone.device.id)
    assert "keep it safe" in paired.get(f"/C/{coin}").text


def test_a_guessed_device_cookie_gets_the_public_page(client, coin):
    client.set_cookie("exergue-device", "guess")
    assert "keep it safe" in client.get(f"/c/{coin}").text


@pytest.mark.parametrize("path", ["/show/count", "/sets/01890000-0000-7000-8000-0000000000aa", "/desks"])
def test_a_page_of_the_app_opened_by_its_address_is_the_app_on_a_paired_phone_alone(client, paired, path):
    """Before its service worker is there to answer. To anyone else it is no page at all."""
    assert client.get(path).status_code == 404
    answer = paired.get(path)
    assert (answer.status_code, answer.data) == (200, paired.get("/").data)
    assert "Cookie" in answer.headers["Vary"]
    assert paired.post(path).status_code == 404


@pytest.mark.parametrize("path", ["/desk/nowhere", "/api/nowhere", "/web/nowhere.js", "/icons/nowhere.png", "/healthz/x"])
def test_what_the_desk_does_not_have_is_nothing_on_a_paired_phone_too(paired, path):
    assert paired.get(path).status_code == 404
