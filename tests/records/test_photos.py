"""Photos are written anew when they come in: only the picture is kept."""

import pytest
from PIL import Image

from exergue.records import photos
from exergue.records.tables import PhotoFile
from exergue.records.verdicts import Refused
from tests.records.test_backup import PHOTO, picture


def test_place_and_camera_are_not_kept(book):
    exif = Image.Exif()
    exif[0x010F] = "Camera maker"
    exif.get_ifd(0x8825)[2] = (40.0, 26.0, 46.0)
    data = picture(exif=exif)
    assert b"Camera maker" in data
    photos.store(book.photos, PHOTO, data)
    kept = photos.path(book.photos, PHOTO)
    assert b"Camera maker" not in kept.read_bytes()
    assert not Image.open(kept).getexif()


def test_a_photo_taken_sideways_is_turned_upright(book):
    exif = Image.Exif()
    exif[0x0112] = 6
    photos.store(book.photos, PHOTO, picture((60, 20), exif=exif))
    assert Image.open(photos.path(book.photos, PHOTO)).size == (20, 60)


def test_a_large_photo_is_shrunk(book):
    row = photos.store(book.photos, PHOTO, picture((4000, 1000)))
    assert (row.width, row.height) == Image.open(photos.path(book.photos, PHOTO)).size == (2000, 500)
    assert max(Image.open(photos.path(book.photos, PHOTO, "thumb")).size) == 320


def test_the_same_bytes_again_change_nothing_and_others_are_refused(book):
    first = photos.store(book.photos, PHOTO, picture())
    assert photos.store(book.photos, PHOTO, picture()).received_ms == first.received_ms
    with pytest.raises(Refused, match="Another photo"):
        photos.store(book.photos, PHOTO, picture((50, 50)))


@pytest.mark.parametrize("data", [b"", b"<svg/>", b"GIF89a" + bytes(50), picture()[:200]])
def test_what_is_no_photo_is_refused_and_leaves_nothing(book, data):
    with pytest.raises(Refused):
        photos.store(book.photos, PHOTO, data)
    assert PhotoFile.select().count() == 0 and not any(book.photos.rglob("*.jpg"))


def test_a_pixel_bomb_is_refused_before_it_is_decoded(book):
    bomb = picture((9000, 9000), "PNG", compress_level=1)
    with pytest.raises(Refused, match="million pixels"):
        photos.store(book.photos, PHOTO, bomb)


@pytest.mark.parametrize("size", ["full", "thumb"])
def test_a_photo_whose_file_was_lost_is_kept_again_when_it_comes_again(book, size):
    photos.store(book.photos, PHOTO, picture())
    photos.path(book.photos, PHOTO, size).unlink()
    with pytest.raises(Refused, match="Another photo"):
        photos.store(book.photos, PHOTO, picture((50, 50)))
    photos.store(book.photos, PHOTO, picture())
    assert all(photos.path(book.photos, PHOTO, one).is_file() for one in photos.EDGES)
    assert PhotoFile.select().count() == 1
