"""Imports run one way: site → sync → records → (reports, collecting, shows, labels, money) → coins."""

import ast

import pytest
from support.tree import ROOT, files

# What stands on what; parts of one floor may use each other, as long as that makes no circle.
# serving.addresses knows nothing of the project, and the site asks it by which names it may be called.
FLOORS = {
    "serving.addresses": 0,
    "coins": 1,
    "money": 2, "labels": 2, "shows": 2, "collecting": 2, "reports": 2,
    "records": 3,
    "sync": 4,
    "site": 5,
    "serving": 6, "commands": 6, "cli": 6, "rehearse": 6, "__main__": 6,
}  # fmt: skip
PURE = ("coins", "money", "labels", "shows", "collecting", "reports")
PACKAGE = ROOT / "server" / "exergue"


def modules():
    """(part, path, names of what it imports) for every module of the package."""
    for path in files(".py"):
        if path.is_relative_to(PACKAGE) and path != PACKAGE / "__init__.py":
            inside = path.relative_to(PACKAGE)
            dotted = ".".join(inside.with_suffix("").parts)
            yield dotted if dotted in FLOORS else inside.parts[0].removesuffix(".py"), path, list(imported(path))


def imported(path):
    """Full names that a module imports, those with dots in front made whole."""
    here = ("exergue", *path.relative_to(PACKAGE).parts)
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(here[: len(here) - node.level]) if node.level else ""
            stem = ".".join(filter(None, (base, node.module)))
            yield from (f"{stem}.{alias.name}" for alias in node.names)


def parts(names):
    """Parts of this package among imported names."""
    for name in names:
        first, *rest = name.split(".")
        if first == "exergue":
            yield next((part for part in (".".join(rest[:2]), *rest[:1]) if part in FLOORS), "")


def test_every_part_has_its_floor():
    assert {part for part, _, _ in modules()} <= set(FLOORS)


def test_no_part_stands_on_one_above_it():
    wrong = [f"{path.relative_to(ROOT)} imports {other}" for part, path, names in modules() for other in parts(names)
             if FLOORS.get(other, 0) > FLOORS[part]]  # fmt: skip
    assert wrong == []


def test_parts_of_one_floor_make_no_circle():
    uses = {part: set() for part in FLOORS}
    for part, _, names in modules():
        if FLOORS[part] < 6:  # the commands and what they run are one floor by intent
            uses[part] |= {other for other in parts(names) if other and other != part}
    def reaches(start, seen=()):
        return {start}.union(*(reaches(each, (*seen, start)) for each in uses[start] if each not in seen))
    assert [part for part in uses for other in uses[part] if part in reaches(other)] == []


@pytest.mark.parametrize("library", ["flask", "flask_wtf", "peewee", "playhouse", "sqlite3", "granian"])
def test_pure_parts_know_neither_web_nor_database(library):
    wrong = [str(path.relative_to(ROOT)) for part, path, names in modules() if part in PURE
             and any(name.split(".")[0] == library for name in names)]  # fmt: skip
    assert wrong == []


def test_transactions_are_opened_in_one_place():
    """The bare form would read before it takes the write lock, and fail when another writer came between."""
    def opens(path):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        return any(isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
                   and node.func.attr in ("atomic", "transaction", "savepoint") for node in ast.walk(tree))  # fmt: skip
    found = [path.relative_to(PACKAGE).as_posix() for _, path, _ in modules() if opens(path)]
    assert found == ["records/store.py"]
