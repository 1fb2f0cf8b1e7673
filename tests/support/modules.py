"""The phone's modules in real Chromium, each by itself, from a served desk."""

from support.desk import Desk

from exergue.records.book import Book


def served_modules(tmp_path_factory, browser):
    """Yields `module(name, expression, given)`: an expression's value in a page, with web/<name>.js as `it`."""
    folder = tmp_path_factory.mktemp("phone") / "book"
    Book.create(folder, name="Test book", currency="USD")
    with Desk(folder) as desk:
        page = browser.new_page()
        page.goto(desk.address)
        yield lambda name, expression, given=None: page.evaluate(
            f"(given) => import('/web/{name}.js').then((it) => ({expression}))", given)  # fmt: skip
        page.close()
