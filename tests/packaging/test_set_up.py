"""`python3 server …` and the build hook: what decides whether anything has to be installed."""

import importlib.util
import json
import subprocess
import sys
import types

import pytest
from support.tree import ROOT

from exergue import __version__
from exergue.commands import Wrong
from exergue.serving import checkout


def load(path, name):
    spec = importlib.util.spec_from_file_location(name, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def server():
    return load(ROOT / "server" / "__main__.py", "server_main")


@pytest.fixture
def hook(monkeypatch):
    """server/hatch_build.py, whose only tie to hatchling is a base class."""
    name = "hatchling.builders.hooks.plugin.interface"
    for part in (name.rsplit(".", up)[0] for up in range(name.count("."), -1, -1)):
        monkeypatch.setitem(sys.modules, part, types.ModuleType(part))
    sys.modules[name].BuildHookInterface = object
    return load(ROOT / "server" / "hatch_build.py", "hatch_build")


@pytest.fixture
def web(tmp_path, hook):
    """A small web folder with one vendored library."""
    (tmp_path / "package.json").write_text('{"vendor": {"left": ["*.js"]}}')
    (tmp_path / "package-lock.json").write_text("{}")
    (tmp_path / ".npmrc").write_text("")
    return tmp_path


def npm_that_brings(*names):
    def npm(arguments, folder):
        from pathlib import Path

        package = Path(folder, "node_modules", "left")
        package.mkdir(parents=True)
        for name in names:
            (package / name).write_text(f"// {name}")
        return 0

    return npm


def test_libraries_are_copied_as_listed(hook, web, monkeypatch):
    monkeypatch.setattr(hook, "npm", npm_that_brings("index.js", "readme.md"))
    hook.vendor(web)
    assert sorted(path.name for path in (web / "vendor").rglob("*") if path.is_file()) == [".stamp", "index.js"]
    assert hook.is_fresh(web)


def test_a_changed_lock_file_calls_for_another_install(hook, web, monkeypatch):
    monkeypatch.setattr(hook, "npm", npm_that_brings("index.js"))
    hook.vendor(web)
    (web / "package-lock.json").write_text('{"lockfileVersion": 3}')
    assert not hook.is_fresh(web)


@pytest.mark.parametrize("npm", [lambda arguments, folder: 1, npm_that_brings("readme.md")])
def test_a_failed_install_leaves_the_old_libraries(hook, web, monkeypatch, npm):
    monkeypatch.setattr(hook, "npm", npm_that_brings("index.js"))
    hook.vendor(web)
    monkeypatch.setattr(hook, "npm", npm)
    with pytest.raises(RuntimeError):
        hook.vendor(web)
    assert (web / "vendor" / "left" / "index.js").exists() and hook.is_fresh(web)


def test_npm_takes_no_scripts_and_only_what_is_locked(hook, web, monkeypatch):
    asked = []
    monkeypatch.setattr(hook, "npm", lambda arguments, folder: asked.append(arguments) or 1)
    with pytest.raises(RuntimeError):
        hook.vendor(web)
    assert asked[0][0] == "ci" and "--ignore-scripts" in asked[0]


def test_node_comes_along_only_where_there_is_no_npm(hook, web, monkeypatch):
    build = types.SimpleNamespace(target_name="wheel", web=web)
    monkeypatch.setattr(hook, "system_npm", lambda: "npm")
    assert hook.CustomBuildHook.dependencies(build) == []
    monkeypatch.setattr(hook, "system_npm", lambda: None)
    assert hook.CustomBuildHook.dependencies(build) == [hook.NODE_WHEEL]


def test_the_desk_and_the_hook_agree_on_what_is_fresh(hook, web, monkeypatch):
    monkeypatch.setattr(checkout, "asset_dir", lambda name: web)
    with pytest.raises(Wrong, match="server"):
        checkout.check()
    monkeypatch.setattr(hook, "npm", npm_that_brings("index.js"))
    hook.vendor(web)
    checkout.check()
    (web / "package-lock.json").write_text("{ }")
    with pytest.raises(Wrong):
        checkout.check()


def test_set_up_is_done_once_and_again_after_a_change(server, tmp_path, monkeypatch):
    for name in (*server.INPUTS, "web/vendor/.stamp", ".venv/bin/python"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("as it was")
    monkeypatch.setattr(server, "ROOT", tmp_path)
    monkeypatch.setattr(server, "PYTHON", tmp_path / ".venv/bin/python")
    stamp = tmp_path / ".venv" / "stamp"
    assert not server.is_set_up(stamp)
    stamp.write_text(server.fingerprint())
    assert server.is_set_up(stamp)
    (tmp_path / "web/package-lock.json").write_text("changed")
    assert not server.is_set_up(stamp)


def test_an_environment_whose_python_is_gone_is_not_taken_for_set_up(server, tmp_path, monkeypatch):
    monkeypatch.setattr(server, "PYTHON", tmp_path / "python")
    (tmp_path / "stamp").write_text(server.fingerprint())
    assert not server.is_set_up(tmp_path / "stamp")


@pytest.mark.parametrize("starter", ["server/__main__.py", "tests/__main__.py", "server/hatch_build.py"])
def test_starters_need_the_standard_library_alone(starter):
    import ast

    tree = ast.parse((ROOT / starter).read_text())
    top = {alias.name.split(".")[0] for node in tree.body if isinstance(node, ast.Import) for alias in node.names}
    top |= {node.module.split(".")[0] for node in tree.body if isinstance(node, ast.ImportFrom)}
    assert top - set(sys.stdlib_module_names) <= {"hatchling"}


def test_starting_through_the_folder_runs_the_command(server):
    if not server.is_set_up(server.STAMP):
        pytest.skip("set up some other way than `python3 tests`; this would install")
    done = subprocess.run([sys.executable, "server", "--version"], cwd=ROOT, capture_output=True, text=True)
    assert done.stdout == f"exergue {__version__}\n"


def test_the_lock_covers_every_library():
    package = json.loads((ROOT / "web/package.json").read_text())
    lock = json.loads((ROOT / "web/package-lock.json").read_text())["packages"]
    for name, version in package["dependencies"].items():
        assert lock[f"node_modules/{name}"]["version"] == version
        assert lock[f"node_modules/{name}"]["integrity"].startswith("sha512-")
