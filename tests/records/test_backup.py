"""A backup holds everything, is checked after writing, and a book put back gets a new epoch."""

import io
import zipfile

import pytest
from PIL import Image

from exergue.records import backup, devices, photos, refold
from exergue.records.book import Book, BookError

PHOTO = "01890000-0000-7000-8000-000000000001"


def picture(size=(40, 30), form="JPEG", **more):
    out = io.BytesIO()
    Image.new("RGB", size, "brown").save(out, form, **more)
    return out.getvalue()


@pytest.fixture
def saved(book, anna, tmp_path):
    coin, _ = anna.buy()
    photos.store(book.photos, PHOTO, picture())
    target = tmp_path / "saved.zip"
    backup.backup(book, target)
    return coin, target


def test_a_book_put_back_is_whole_and_knows_that_it_was(book, saved, tmp_path):
    coin, target = saved
    card, epoch, seq = book.card("coin", coin), book.epoch, book.seq
    backup.restore(target, tmp_path / "again")
    again = Book.open(tmp_path / "again")
    with again.connected():
        assert again.card("coin", coin) == card and again.seq == seq
        assert again.epoch != epoch and again.id == book.id
        assert photos.path(again.photos, PHOTO).exists()
        assert refold.verify() == []


def test_a_backup_never_overwrites(book, saved):
    with pytest.raises(BookError, match="never overwrites"):
        backup.backup(book, saved[1])


def test_a_book_is_never_overwritten_by_restoring(book, saved):
    with pytest.raises(BookError, match="move it away"):
        backup.restore(saved[1], book.folder)


@pytest.mark.parametrize("damage", ["cut", "changed", "not a zip"])
def test_a_damaged_backup_is_refused_and_leaves_nothing(saved, tmp_path, damage):
    target = saved[1]
    data = bytearray(target.read_bytes())
    if damage == "cut":
        data = data[: len(data) // 2]
    elif damage == "not a zip":
        data = bytearray(b"photos of coins")
    else:
        with zipfile.ZipFile(target) as archive:
            info = archive.getinfo(f"photos/{PHOTO[-2:]}/{PHOTO}.full.jpg")
        data[info.header_offset + 200] ^= 0xFF
    target.write_bytes(data)
    with pytest.raises(BookError):
        backup.restore(target, tmp_path / "again")
    assert not (tmp_path / "again").exists()


def test_what_another_book_left_behind_is_never_mixed_in(saved, tmp_path):
    (tmp_path / "again").mkdir()
    (tmp_path / "again" / "book.sqlite3-wal").write_bytes(b"left by a power cut")
    with pytest.raises(BookError, match="move the whole folder away"):
        backup.restore(saved[1], tmp_path / "again")
    assert not (tmp_path / "again" / "book.sqlite3").exists()


def test_a_book_put_back_warns_of_phones_that_are_paired_again(book, saved, anna, tmp_path):
    devices.revoke(anna.device.id)  # after the backup
    backup.restore(saved[1], tmp_path / "again")
    again = Book.open(tmp_path / "again")
    with again.connected():
        assert devices.by_token(anna.token)
        (notice,) = devices.notices()
        assert notice.kind == "put_back" and "unpair" in notice.text
        assert devices.revoke_all() == 1 and devices.by_token(anna.token) is None and devices.was_revoked(anna.token)


def test_a_book_put_back_has_no_warning_where_no_phone_is_paired(book, tmp_path):
    backup.backup(book, tmp_path / "saved.zip")
    backup.restore(tmp_path / "saved.zip", tmp_path / "again")
    with Book.open(tmp_path / "again").connected():
        assert devices.notices() == []
