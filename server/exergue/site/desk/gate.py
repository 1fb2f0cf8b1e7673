"""Who may see the desk: the book's owner, signed in. Every page asks, unless it is marked `open_to_all`."""

from urllib.parse import urlsplit

from flask import Blueprint, current_app, g, redirect, request, session, url_for
from werkzeug.exceptions import Unauthorized

from ...records import owner
from ..security import SAFE


class SignedOut(Unauthorized):
    code_name = "not_signed_in"
    title = "You are signed out"
    description = "Nothing was changed. Sign in in another tab, then go back here and send the form again."


def open_to_all(view):
    """A page that anybody may ask for."""
    view.open_to_all = True
    return view


def guard(desk: Blueprint) -> None:
    @desk.before_request
    def only_the_owner():
        g.owner = _signed_in()
        view = current_app.view_functions.get(request.endpoint)
        if g.owner or getattr(view, "open_to_all", False):
            return None
        if request.method not in SAFE:
            raise SignedOut()
        if not owner.exists():
            return redirect(url_for("desk.set_up"))
        return redirect(url_for("desk.sign_in", next=request.full_path.rstrip("?")))


def _signed_in():
    kept = session.get("owner")
    present = owner.get() if kept else None
    return present if present and present.session == kept else None


def begin(person) -> None:
    """Sign this browser in, under a fresh session."""
    session.clear()
    session["owner"] = person.session
    session.permanent = True


def end() -> None:
    session.clear()


def next_page() -> str:
    """Where to go after signing in: the page of the desk that was asked for."""
    wish = urlsplit(request.args.get("next", ""))
    inside = not wish.scheme and not wish.netloc and wish.path.startswith("/desk/") and "\\" not in wish.path
    if not inside:
        return url_for("desk.today")
    return wish.path + ("?" + wish.query if wish.query else "")
