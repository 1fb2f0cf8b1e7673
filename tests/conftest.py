"""Fixtures that every part may use; the work is done in tests/support."""

import pytest
from hypothesis import HealthCheck, settings
from support import browser as browsers
from support.desk import Desk

# The same examples in every run, and none fails because the machine is busy.
settings.register_profile("exergue", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("exergue")


# Files that take minutes begin first: with the whole run in several processes none is left alone at the end.
LONG = ("test_for_everyone", "test_show_day", "test_wheel", "test_any_order", "test_refold", "test_accounts", "test_settled")


def pytest_collection_modifyitems(items):
    items.sort(key=lambda item: item.path.stem not in LONG)


@pytest.fixture
def book(tmp_path):
    """A fresh, empty book, with a connection for the test's thread."""
    from exergue.records.book import Book

    fresh = Book.create(tmp_path / "book", name="Test book", currency="USD")
    with fresh.connected():
        yield fresh


@pytest.fixture
def app(book):
    """The site over `book`, as behind loopback HTTP; `set_up_key` is "test-key"."""
    from exergue.site import create_app

    app = create_app(str(book.folder), base_address="http://localhost", set_up_key="test-key")
    app.config["TESTING"] = True
    with book.connected():  # opening the book again took the test's connection
        yield app


@pytest.fixture
def client(app):
    return app.test_client()


@pytest.fixture
def served(tmp_path):
    """A running desk over an empty book in `served.folder`; it ends with the test."""
    from exergue.records.book import Book

    Book.create(tmp_path / "book", name="Test book", currency="USD")
    with Desk(tmp_path / "book") as desk:
        yield desk


@pytest.fixture(scope="session")
def playwright():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright):
    """One Chromium for the whole run."""
    one = browsers.launch(playwright)
    yield one
    one.close()


@pytest.fixture
def phone(browser):
    """A phone's browser context, fresh; `phone.new_page()` opens a tab."""
    context = browser.new_context(**browsers.PHONE)
    yield context
    context.close()


@pytest.fixture
def screen(browser):
    """A desk computer's browser context, fresh."""
    context = browser.new_context(**browsers.SCREEN)
    yield context
    context.close()
