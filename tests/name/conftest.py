"""The modules of web/name and web/engine in real Chromium."""

import json

import pytest
from support.modules import served_modules

from exergue.coins import catalogue


@pytest.fixture(scope="module")
def module(tmp_path_factory, browser):
    yield from served_modules(tmp_path_factory, browser)


@pytest.fixture(scope="session")
def packed():
    """The real catalogue's pack, as a phone receives it."""
    return json.loads(json.dumps(catalogue.load().pack()))


@pytest.fixture(scope="module")
def naming(module, packed):
    """`naming(expression, given)`: with the catalogue prepared as `naming`, web/name/index.js as `it`."""
    module("name/index", """import('/web/engine/unpack.js').then(({unpacked}) => { globalThis.naming = it.prepare(unpacked(given)); return 0; })""", packed)
    return lambda expression, given=None: module("name/index", expression, given)
