"""web/name and web/plan know no page, no network, no storage and no clock: they can be read, tried and trusted by themselves."""

import re

from support.tree import ROOT, files

MODULES = [path for path in files(".js") if path.parent in (ROOT / "web/name", ROOT / "web/plan")]
WORLD = re.compile(r"\b(document|window|navigator|localStorage|indexedDB|fetch|performance|setTimeout|Date\.now|Math\.random)\b")


def test_it_uses_nothing_of_the_world():
    assert len(MODULES) > 12
    code = {path.name: re.sub(r"//.*|/\*.*?\*/", "", path.read_text("utf-8"), flags=re.S) for path in MODULES}
    assert {name: WORLD.findall(text) for name, text in code.items() if WORLD.search(text)} == {}


def test_they_import_only_each_other():
    imports = {path.name: re.findall(r"^(?:import|export)[^;]*from '([^']+)'", path.read_text("utf-8"), flags=re.M) for path in MODULES}
    assert {name: found for name, found in imports.items() if any(not re.match(r"\./|\.\./(name|plan)/", one) for one in found)} == {}


def test_its_files_are_small():
    assert max(path.read_text("utf-8").count("\n") for path in MODULES) < 200
