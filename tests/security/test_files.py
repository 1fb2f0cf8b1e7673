"""Plain files: right types, nothing that was not meant to be served, and a worker that knows when a file changed."""

import json
import re
from pathlib import Path

import pytest

from exergue.site import files, keep, styles

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def tree(tmp_path, monkeypatch):
    """A small app of our own in place of web/ and manifest/."""
    for name, text in {
        "web/index.html": "<!doctype html>", "web/app.js": "export {}", "web/look/a.css": "a{}", "web/look/b.css": "b{}", "web/reader.wasm": "\0asm",
        "web/font.woff2": "wOF2", "web/sw.js": "self.x = KEEP;", "web/package.json": "{}", "web/package-lock.json": "{}",
        "web/.npmrc": "secret", "web/.hidden/a.js": "1", "web/desk/desk.js": "1", "web/tool.py": "1",
        "manifest/app.webmanifest": "{}", "manifest/icons/192.png": "PNG",
        "manifest/keep.txt": "# kept\nweb/index.html\nweb/**/*.js\nweb/*.wasm   # the reader\n!web/desk/*\n!web/sw.js\n"
                             "manifest/app.webmanifest\nmanifest/icons/*.png\n",
        "manifest/styles.txt": "# in this order\nweb/look/b.css\nweb/look/a.css\n",
        "outside.txt": "secret",
    }.items():  # fmt: skip
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    monkeypatch.setattr(files, "asset_dir", lambda name: tmp_path / name)
    monkeypatch.setattr(keep, "asset_dir", lambda name: tmp_path / name)
    monkeypatch.setattr(styles, "asset_dir", lambda name: tmp_path / name)
    return tmp_path


@pytest.mark.parametrize("address, mimetype", [
    ("/", "text/html"), ("/web/app.js", "text/javascript"), ("/web/look/a.css", "text/css"),
    ("/web/look/phone.css", "text/css"),
    ("/web/reader.wasm", "application/wasm"), ("/web/font.woff2", "font/woff2"),
    ("/app.webmanifest", "application/manifest+json"), ("/icons/192.png", "image/png"), ("/sw.js", "text/javascript"),
])  # fmt: skip
def test_files_are_served_as_what_they_are_and_asked_for_again(client, tree, address, mimetype):
    answer = client.get(address)
    assert (answer.status_code, answer.mimetype) == (200, mimetype)
    assert answer.headers["Cache-Control"] == "no-cache"
    again = client.get(address, headers={"If-None-Match": answer.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


@pytest.mark.parametrize("name", ["package.json", "package-lock.json", ".npmrc", ".hidden/a.js", "tool.py", "../outside.txt",
                                  "%2e%2e/outside.txt", "look/../../outside.txt", "look", "", "none.js"])  # fmt: skip
def test_what_was_not_meant_to_be_served_is_not(client, tree, name):
    assert client.get(f"/web/{name}").status_code == 404


def test_a_longer_file_goes_packed_to_who_can_unpack_it(client, tree):
    import gzip

    text = "export const words = 'a holder is a square card with a round window';" * 50
    (tree / "web/app.js").write_text(text)
    plain = client.get("/web/app.js")
    packed = client.get("/web/app.js", headers={"Accept-Encoding": "gzip, br"})
    assert (plain.text, "Content-Encoding" in plain.headers) == (text, False)
    assert gzip.decompress(packed.data).decode() == text
    assert (packed.headers["Content-Encoding"], packed.mimetype) == ("gzip", "text/javascript")
    assert plain.headers["Vary"] == packed.headers["Vary"] == "Accept-Encoding"
    assert plain.headers["ETag"] != packed.headers["ETag"]
    again = client.get("/web/app.js", headers={"Accept-Encoding": "gzip", "If-None-Match": packed.headers["ETag"]})
    assert again.status_code == 304
    (tree / "web/app.js").write_text(text + "// changed")
    changed = client.get("/web/app.js", headers={"Accept-Encoding": "gzip", "If-None-Match": packed.headers["ETag"]})
    assert gzip.decompress(changed.data).decode().endswith("// changed")


def test_the_styles_of_the_phone_come_as_one_in_the_order_of_their_list(client):
    listed = [line for line in (ROOT / "manifest/styles.txt").read_text().splitlines() if not line.startswith("#")]
    assert sorted(listed) == sorted(f"web/look/{path.name}" for path in (ROOT / "web/look").glob("*.css") if path.name not in ("desk.css", "sets.css"))
    told = client.get("/web/look/phone.css").text
    places = [told.index((ROOT / name).read_text()) for name in listed]
    assert places == sorted(places)


def kept(client) -> dict:
    first, script = client.get("/sw.js").text.split("\n", 1)
    assert script == "self.x = KEEP;"
    return json.loads(re.fullmatch(r"const KEEP = (.*);", first)[1])


def test_the_worker_is_told_which_files_to_keep(client, tree):
    addresses = [address for address, _ in kept(client)["files"]]
    assert addresses == ["/", "/app.webmanifest", "/icons/192.png", "/web/app.js", "/web/look/phone.css", "/web/reader.wasm"]


def test_every_kept_address_can_be_fetched(client, tree):
    for address, _ in kept(client)["files"]:
        assert client.get(address).status_code == 200, address


def test_a_changed_file_changes_its_hash_and_the_version(client, tree):
    before = kept(client)
    (tree / "web/look/a.css").write_text("a{color:red}")
    after = kept(client)
    assert before["version"] != after["version"]
    assert {address for (address, old), (_, new) in zip(before["files"], after["files"], strict=True) if old != new} == {"/web/look/phone.css"}


def test_a_changed_worker_changes_the_version(client, tree):
    before = kept(client)["version"]
    (tree / "web/sw.js").write_text("self.x = KEEP;")
    assert kept(client)["version"] == before
    (tree / "manifest/keep.txt").write_text("web/index.html\n")
    assert kept(client)["version"] != before


def test_health(client):
    answer = client.get("/healthz")
    assert (answer.status_code, answer.text) == (200, "ok\n")
