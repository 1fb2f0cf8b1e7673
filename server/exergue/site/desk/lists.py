"""What the pages of wants and shows have in common: a form over the fields of one record, added or edited."""

from flask import flash

from ...records.clock import now_ms
from ...records.uuid7 import uuid7
from ...records.verdicts import Refused
from .. import here
from .coin import say
from .forms import changed


def save(what: str, key: str | None, form, done: str, kind: str = "") -> bool:
    """Record the form's fields as a new record (`key` None) or as changes to one. Says what became of it.

    `kind`: of the entry, where it is not called by what it is about.
    """
    kind = kind or what
    wanted = form.wanted()
    try:
        if key is None:
            verdict = here.book().act(f"{kind}.add", {what: uuid7(now_ms()), "set": wanted})
        else:
            saw = form.seen.data
            new = changed(saw, wanted)
            if not new:
                flash("Nothing was changed.")
                return True
            base = {name: saw[name] for name in new if name in saw}
            verdict = here.book().act(f"{kind}.edit", {what: key, "base": base, "set": new})
    except Refused as problem:
        form.form_errors = [str(problem)]
        return False
    say(verdict, done)
    return True
