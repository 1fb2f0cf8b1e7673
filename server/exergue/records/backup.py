"""Backups: one zip with a checked copy of the database and every photo; and putting one back."""

import hashlib
import json
import os
import shutil
import sqlite3
import tempfile
import uuid
import zipfile
from pathlib import Path

from . import devices
from .book import FILE, Book, BookError
from .clock import now_ms

MANIFEST = "backup.json"


def backup(book: Book, target: Path) -> dict:
    """Write a backup to `target` (a new file), then read it again and compare. Returns its manifest.

    SQLite's online backup: the desk may go on working. Raises BookError, and leaves no half file.
    """
    target = Path(target)
    if target.exists():
        raise BookError(f"{target} is there already; a backup never overwrites one.")
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(target.name + ".part")
    try:
        with tempfile.TemporaryDirectory(dir=target.parent) as temp:
            copy = Path(temp) / FILE
            _copy_database(book.folder / FILE, copy)
            files = {FILE: copy} | _files(book.folder)
            manifest = {
                "exergue": 1, "book": book.id, "seq": _seq(copy), "when_ms": now_ms(),
                "files": {name: _digest(path) for name, path in files.items()},
            }  # fmt: skip
            with zipfile.ZipFile(part, "w") as archive:
                for name, path in files.items():
                    packed = zipfile.ZIP_STORED if name.endswith(".jpg") else zipfile.ZIP_DEFLATED
                    archive.write(path, name, compress_type=packed, compresslevel=3)
                archive.writestr(MANIFEST, json.dumps(manifest, indent=1))
        check(part)
        os.replace(part, target)
    finally:
        part.unlink(missing_ok=True)
    return manifest


def check(archive_path: Path) -> dict:
    """Read a backup through: every file's digest, and SQLite's own integrity check. Raises BookError."""
    try:
        with zipfile.ZipFile(archive_path) as archive, tempfile.TemporaryDirectory() as temp:
            manifest = json.loads(archive.read(MANIFEST))
            if set(manifest["files"]) != set(archive.namelist()) - {MANIFEST}:
                raise BookError("The backup does not hold the files that it lists.")
            for name, digest in manifest["files"].items():
                found = hashlib.sha256()
                with archive.open(name) as file:
                    while block := file.read(1 << 20):
                        found.update(block)
                if found.hexdigest() != digest:
                    raise BookError(f"{name} in the backup is damaged.")
            archive.extract(FILE, temp)
            connection = sqlite3.connect(Path(temp) / FILE)
            try:
                if connection.execute("pragma integrity_check").fetchone() != ("ok",):
                    raise BookError("The database in the backup is damaged.")
            finally:
                connection.close()
            return manifest
    except (OSError, KeyError, ValueError, zipfile.BadZipFile, sqlite3.DatabaseError) as problem:
        raise BookError(f"{archive_path} is not a whole backup of a book: {problem}") from None


def restore(archive_path: Path, folder: Path) -> dict:
    """Put a backup into `folder`, which must hold no book. The book gets a new epoch, so that phones
    notice and offer again what the backup lacks. Raises BookError and leaves the folder as it was."""
    folder = Path(folder)
    if (folder / FILE).exists():
        raise BookError(f"There is a book in {folder}; move it away before restoring.")
    left = [name for name in (f"{FILE}-wal", f"{FILE}-shm", f"{FILE}-journal") if (folder / name).exists()]
    if left:  # SQLite would mix what they hold into the restored book
        raise BookError(f"{folder} still holds {left[0]} of another book; move the whole folder away first.")
    manifest = check(archive_path)
    made = not folder.exists()
    folder.mkdir(parents=True, exist_ok=True)
    try:
        with zipfile.ZipFile(archive_path) as archive:
            for name in sorted(manifest["files"], key=lambda n: n == FILE):  # the database last: it makes the book
                target = folder / name
                if not target.resolve().is_relative_to(folder.resolve()):
                    raise BookError(f"The backup names a file outside the book: {name}")
                target.parent.mkdir(parents=True, exist_ok=True)
                with archive.open(name) as source, open(target, "wb") as out:
                    shutil.copyfileobj(source, out)
        _begin_anew(folder / FILE)
    except Exception:
        (folder / FILE).unlink(missing_ok=True)
        if made:
            shutil.rmtree(folder, ignore_errors=True)
        raise
    return manifest


def _begin_anew(path: Path) -> None:
    """A new epoch, and a word to the desk about phones that the backup still takes for paired."""
    connection = sqlite3.connect(path)
    try:
        with connection:
            for key, value in (("epoch", str(uuid.uuid4())), ("restored_ms", str(now_ms()))):
                connection.execute("insert or replace into meta (key, value) values (?, ?)", (key, value))
            if connection.execute("select 1 from device where token is not null and revoked_ms is null").fetchone():
                connection.execute("insert into notice (kind, text, when_ms, seen) values (?, ?, ?, ?)",
                                   ("put_back", devices.PUT_BACK, now_ms(), False))  # fmt: skip
    finally:
        connection.close()


def _copy_database(source: Path, target: Path) -> None:
    live, copy = sqlite3.connect(source), sqlite3.connect(target)
    try:
        live.backup(copy)
        copy.execute("pragma journal_mode = delete")
    finally:
        live.close()
        copy.close()


def _seq(path: Path) -> int:
    connection = sqlite3.connect(path)
    try:
        row = connection.execute("select value from meta where key = 'seq'").fetchone()
        return int(row[0]) if row else 0
    finally:
        connection.close()


def _files(folder: Path) -> dict[str, Path]:
    """What belongs to the book besides its database: photos, own catalogue, settings."""
    found = {}
    for name in ("photos", "catalogue"):
        for path in sorted((folder / name).rglob("*")):
            if path.is_file() and not path.name.startswith("tmp"):
                found[path.relative_to(folder).as_posix()] = path
    if (folder / "book.toml").exists():
        found["book.toml"] = folder / "book.toml"
    return found


def _digest(path: Path) -> str:
    digest = hashlib.sha256()
    with open(path, "rb") as file:
        while block := file.read(1 << 20):
            digest.update(block)
    return digest.hexdigest()


