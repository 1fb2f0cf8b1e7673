"""A wheel, installed where there is no checkout, serves what the checkout serves."""

import json
import subprocess
import zipfile
from pathlib import PurePosixPath

import pytest
from support import wheel as wheels
from support.desk import Desk
from support.tree import ROOT

from exergue.records.book import Book


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    return wheels.build(tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def names(wheel):
    with zipfile.ZipFile(wheel) as archive:
        return set(archive.namelist())


@pytest.fixture(scope="module")
def elsewhere(wheel, tmp_path_factory):
    """Python of an environment that holds the wheel alone."""
    return wheels.installed(wheel, tmp_path_factory.mktemp("elsewhere") / "env")


def vendored() -> set[str]:
    """Files that package.json says the phone app needs of its libraries."""
    web = ROOT / "web"
    wanted = json.loads((web / "package.json").read_text())["vendor"]
    return {path.relative_to(web).as_posix() for package, patterns in wanted.items() for pattern in patterns
            for path in (web / "vendor" / package).glob(pattern)}  # fmt: skip


def test_the_wheel_holds_the_phone_app_and_its_libraries(names):
    needed = vendored()
    assert len(needed) > 20
    assert {f"exergue/web/{path}" for path in needed} <= names
    own = {path.relative_to(ROOT).as_posix() for folder in ("web", "manifest", "sample_inventory")
           for path in (ROOT / folder).rglob("*") if path.is_file()}  # fmt: skip
    own = {path for path in own if not any(part.startswith(".") or part == "node_modules" for part in path.split("/"))}
    assert {f"exergue/{path}" for path in own} - {"exergue/web/package.json", "exergue/web/package-lock.json"} <= names


def test_the_wheel_holds_nothing_that_is_no_part_of_it(names):
    strange = [name for name in names if PurePosixPath(name).name in ("package.json", "package-lock.json", ".npmrc")
               or "node_modules" in name or "__pycache__" in name or "/tests/" in name]  # fmt: skip
    assert strange == []
    assert {name.split("/")[0].split("-")[0] for name in names} == {"exergue"}


def test_the_wheel_holds_every_data_file_of_the_package(names):
    package = ROOT / "server" / "exergue"
    data = [path for path in package.rglob("*") if path.is_file() and "__pycache__" not in path.parts]
    assert {f"exergue/{path.relative_to(package).as_posix()}" for path in data} <= names


def test_both_serve_the_same_to_phones(elsewhere, tmp_path):
    Book.create(tmp_path / "book", name="Test book")
    paths = ["/", "/sw.js", "/app.webmanifest"]
    files = [path for path in sorted((ROOT / "web").rglob("*")) if path.is_file() and path.name[0] != "."]
    paths += [f"/web/{path.relative_to(ROOT / 'web').as_posix()}" for path in files if path.stem[:7] != "package"]
    with Desk(tmp_path / "book") as checkout:
        ours = {path: checkout.get(path) for path in paths}
    with Desk(tmp_path / "book", python=str(elsewhere), cwd=tmp_path) as installed:
        theirs = {path: installed.get(path) for path in paths}
    assert [path for path in paths if ours[path] != theirs[path]] == []


def test_both_tell_phones_the_same_of_coins(elsewhere, tmp_path):
    """/api/reference: grades, denominations, types and kinds of fact, from the package's own data files."""
    Book.create(tmp_path / "book", name="Test book")
    with Desk(tmp_path / "book") as checkout:
        ours = checkout.get("/api/reference", checkout.paired())
    with Desk(tmp_path / "book", python=str(elsewhere), cwd=tmp_path) as installed:
        theirs = installed.get("/api/reference", installed.paired())
    assert len(json.loads(ours)["types"]["keys"]) > 10
    assert ours == theirs


def test_the_demo_runs_without_a_checkout(elsewhere, tmp_path):
    """Imported in that environment: the package, the sample files and the demo book made of them."""
    made = "from exergue.commands import demo_book; from pathlib import Path; import exergue, sys; " \
           "demo_book.make(Path(sys.argv[1])); print(exergue.__file__)"  # fmt: skip
    command = [elsewhere, "-I", "-c", made, tmp_path / "demo"]
    done = subprocess.run(command, capture_output=True, text=True, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert str(elsewhere.parent.parent) in done.stdout
    assert (tmp_path / "demo" / "book.sqlite3").exists()
