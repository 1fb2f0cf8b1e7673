"""What may not stand in any file of the project."""

import json
import posixpath
import re
import tomllib
from pathlib import Path

import pytest
from support.tree import ROOT, texts

LONGEST = 400  # lines of a source file
# Put together here, so that this file does not hold them either.
HOSTS = [".".join(parts) for parts in (
    ("pypi", "org"), ("files", "pythonhosted"), ("npmjs", "org"), ("npmjs", "com"), ("yarnpkg", "com"),
)]  # fmt: skip
PATHS = ["/" + "home/", "/" + "Users/", "C:" + "\\Users", str(ROOT) + "/", str(Path.home()) + "/"]


@pytest.mark.parametrize("host", HOSTS)
def test_no_file_names_a_package_registry(host):
    assert [name for name, text in texts() if host in text] == []


@pytest.mark.parametrize("path", PATHS)
def test_no_file_names_a_path_of_a_machine(path):
    assert [name for name, text in texts() if path in text] == []


def test_the_lock_file_has_no_addresses():
    """web/.npmrc leaves them out; an environment variable can undo that unseen."""
    assert '"resolved"' not in (ROOT / "web/package-lock.json").read_text()


def test_source_files_can_be_read_in_one_sitting():
    lines = {name: text.count("\n") for name, text in texts(".py", ".js", ".css", ".html")}
    assert {name: count for name, count in lines.items() if count > LONGEST} == {}


def test_the_phone_app_asks_no_other_host():
    """No content network at run time. An XML namespace is a name, not an address that is fetched."""
    address = re.compile(r"https?://(?!www\.w3\.org/)[\w.-]+\.\w+")
    found = [(name, hit) for name, text in texts(".js", ".css", ".html", ".webmanifest", ".svg")
             if name.startswith(("web/", "manifest/", "server/")) for hit in address.findall(text)]  # fmt: skip
    assert found == []


def test_every_python_dependency_has_its_reason_beside_it():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    wanted = sum(project["optional-dependencies"].values(), project["dependencies"])
    lines = (ROOT / "pyproject.toml").read_text().splitlines()
    for each in wanted:
        (line,) = [line for line in lines if f'"{each}"' in line]
        assert re.search(r"#\s*\w+.*\w", line), f"{each} has no reason"


def test_every_library_of_the_phone_app_has_its_reason():
    package = json.loads((ROOT / "web/package.json").read_text())
    assert set(package["why"]) == set(package["dependencies"]) == set(package["vendor"])
    assert all(package["why"].values())


def test_versions_of_the_phone_apps_libraries_are_exact():
    package = json.loads((ROOT / "web/package.json").read_text())
    assert all(re.fullmatch(r"\d+\.\d+\.\d+", version) for version in package["dependencies"].values())


def test_the_page_asks_at_once_for_every_module_that_the_start_needs():
    """Else the browser finds them one floor after the other. What is imported later does not belong in the list."""
    static = re.compile(r"""(?:^|;|\n)(?:import|export)[^;'"()]*?(?:from)?\s*["'](\.[^"']+)["']""")
    wanted, found = [], ["/web/app.js"]
    while found:
        module = found.pop()
        text = (ROOT / module[1:]).read_text()
        for each in static.findall(text):
            path = posixpath.normpath(posixpath.join(posixpath.dirname(module), each))
            if path not in wanted:
                wanted.append(path)
                found.append(path)
    listed = re.findall(r'rel="modulepreload" href="([^"]+)"', (ROOT / "web/index.html").read_text())
    assert sorted(listed) == sorted(wanted)


def test_tests_do_not_sleep():
    naps = re.compile(r"\bsleep\(|wait_for_timeout\(")
    found = [name for name, text in texts(".py") if name.startswith("tests/") and naps.search(text)]
    assert [name for name in found if name not in ("tests/support/waiting.py", "tests/tidy/test_tree.py")] == []


def test_every_command_is_described_in_the_readme():
    from exergue.cli import COMMANDS

    readme = (ROOT / "README.md").read_text()
    assert [name for name in COMMANDS if f"exergue {name}" not in readme] == []
