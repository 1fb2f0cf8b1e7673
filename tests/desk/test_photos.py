"""Photos added at the desk."""

import io

import pytest
from PIL import Image

from exergue.records.tables import Fact, Photo
from exergue.site import limits


def jpeg(size=(300, 200), exif: bytes | None = None) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", size, (140, 90, 50)).save(out, "JPEG", **({"exif": exif} if exif else {}))
    return out.getvalue()


def add(ada, coin: str, data: bytes, name: str = "coin.jpg", side: str = "reverse"):
    form = {"csrf_token": ada.token, "side": side, "file": (io.BytesIO(data), name)}
    return ada.client.post(f"/desk/coins/{coin}/photos", data=form, content_type="multipart/form-data")


def test_a_photo_is_shown_on_its_side_without_its_camera_details(ada, buy):
    coin = buy()
    exif = Image.Exif()
    exif[0x010F] = "Secret Camera"
    assert add(ada, coin, jpeg(exif=exif.tobytes())).status_code == 302
    photo = Photo.get()
    assert photo.side == "reverse"
    full = ada.get(f"/desk/photos/{photo.photo}/full")
    assert full.mimetype == "image/jpeg"
    assert b"Secret Camera" not in full.data
    assert Image.open(io.BytesIO(full.data)).size == (300, 200)
    assert f"/desk/photos/{photo.photo}/thumb" in ada.get(f"/desk/coins/{coin}").text


def bomb(side: int) -> bytes:
    """A small PNG of side × side pixels."""
    out = io.BytesIO()
    Image.new("1", (side, side)).save(out, "PNG", compress_level=9)
    return out.getvalue()


@pytest.mark.parametrize("data, said", [
    (b"", "Choose a photo first."),
    (b"GIF89a not really", "not a photo that can be read"),
    (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not a photo that can be read"),
    (jpeg()[:400], "not a photo that can be read"),
    (bomb(8_000), "million pixels"),
    (bomb(20_000), "not a photo that can be read"),
], ids=["empty", "no picture", "drawing", "cut short", "too many pixels", "pixel bomb"])  # fmt: skip
def test_what_is_no_photo_is_refused_in_one_sentence_and_leaves_nothing(ada, book, buy, data, said):
    coin = buy()
    before = Fact.select().count()
    answer = add(ada, coin, data)
    assert answer.status_code == 400
    assert said in answer.text
    assert Fact.select().count() == before
    assert [path for path in book.photos.rglob("*") if path.is_file()] == []


def test_a_file_that_is_too_large_is_refused_before_it_is_read(ada, buy):
    coin = buy()
    answer = add(ada, coin, b"\xff" * (limits.PHOTO + 1))
    assert answer.status_code == 413
    assert "larger than this page takes" in answer.text


def test_a_photo_can_be_removed(ada, buy):
    coin = buy()
    add(ada, coin, jpeg())
    ada.post(f"/desk/coins/{coin}/undo/{Photo.get().fact}")
    assert not Photo.select().exists()


def test_a_photo_that_has_not_arrived_is_said_to_be_on_the_phone(ada, buy, phone):
    coin = buy()
    photo = "01890000-0000-7000-8000-000000000001"
    phone("photo", {"coin": coin, "photo": photo, "side": "obverse", "digest": "0" * 64})
    assert "still on the phone" in ada.get(f"/desk/coins/{coin}").text
    assert ada.get(f"/desk/photos/{photo}/full").status_code == 404
