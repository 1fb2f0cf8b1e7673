"""The owner at the desk, without a browser: signs in, opens pages, fills in their forms."""

from urllib.parse import urljoin

from .pages import Form, Page
from .wire import Wire


class DeskProblem(Exception):
    """A page of the desk did not answer as it should."""


class Desk:
    def __init__(self, base: str):
        self.wire = Wire(base)

    def open(self, path: str) -> Page:
        status, body, _ = self.wire.ask("GET", path)
        if status != 200:
            raise DeskProblem(f"{path} answered {status}")
        return Page(body.decode())

    def send(self, path: str, form: Form, files=(), **values) -> tuple[Page | None, bytes, str]:
        """Fill in and post a form; returns (page, body, type). The page is None for what is not HTML."""
        target = urljoin(path, form.action or path)
        status, body, headers = self.wire.form(target, form.filled(**values), files)
        kind = headers.get_content_type()
        if status != 200:
            said = Page(body.decode(errors="replace")).text if kind == "text/html" else ""
            raise DeskProblem(f"{target} answered {status}. {said[:300]}")
        return (Page(body.decode()) if kind == "text/html" else None), body, kind

    def sign_in(self, name: str, password: str) -> None:
        page = self.open("/desk/sign-in")
        self.send("/desk/sign-in", page.form("name", "password"), name=name, password=password)
        if "Sign out" not in self.open("/desk/").text:
            raise DeskProblem("signing in at the desk did not work")
