"""Reading a desk page as a browser does: its forms with what is filled in, and its text."""

from dataclasses import dataclass, field
from html.parser import HTMLParser


@dataclass
class Form:
    """One form: where it goes, and its fields with their present values."""

    action: str = ""
    method: str = "get"
    fields: list[tuple[str, str]] = field(default_factory=list)
    buttons: list[tuple[str, str]] = field(default_factory=list)
    choices: dict[str, list[str]] = field(default_factory=dict)

    def filled(self, **values) -> list[tuple[str, str]]:
        """The fields to send, with `values` in place of what stood there; a list sends one name several times."""
        kept = [(name, value) for name, value in self.fields if name not in values]
        for name, value in values.items():
            kept += [(name, each) for each in (value if isinstance(value, list) else [value])]
        return kept


class Page(HTMLParser):
    """Forms and text of an HTML page."""

    VOID = ("script", "style")

    def __init__(self, html: str):
        super().__init__()
        self.forms: list[Form] = []
        self.words: list[str] = []
        self._form = self._select = self._area = None
        self._hidden = 0
        self.labelled: dict[str, str] = {}  # text of paragraphs by their aria-label
        self._label = ""
        self.feed(html)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())

    def form(self, *names: str) -> Form:
        """The first form that has all of these fields or choices. Raises LookupError."""
        for form in self.forms:
            if set(names) <= {name for name, _ in form.fields} | set(form.choices) | {n for n, _ in form.buttons}:
                return form
        raise LookupError(f"no form with {', '.join(names)}")

    def handle_starttag(self, tag, attrs):
        given = {name: value if value is not None else "" for name, value in attrs}
        if tag == "p" and "aria-label" in given:
            self._label = given["aria-label"]
        if tag == "form":
            self._form = Form(given.get("action", ""), given.get("method", "get").lower())
            self.forms.append(self._form)
        elif tag in self.VOID:
            self._hidden += 1
        elif self._form is not None and "disabled" not in given:
            self._control(tag, given)

    def _control(self, tag, given):
        name, value, kind = given.get("name", ""), given.get("value", ""), given.get("type", "")
        if tag == "input" and name:
            if kind in ("checkbox", "radio"):
                self._form.choices.setdefault(name, []).append(value or "on")
                if "checked" not in given:
                    return
                value = value or "on"
            if kind in ("submit", "image", "button"):
                self._form.buttons.append((name, value))
            elif kind == "file":
                self._form.choices.setdefault(name, [])
            else:
                self._form.fields.append((name, value))
        elif tag == "button" and name:
            self._form.buttons.append((name, value))
        elif tag == "select" and name:
            self._select = name
            self._form.choices[name] = []
        elif tag == "option" and self._select:
            self._form.choices[self._select].append(value)
            first = len(self._form.choices[self._select]) == 1
            if "selected" in given or first:
                self._form.fields = [f for f in self._form.fields if f[0] != self._select]
                self._form.fields.append((self._select, value))
        elif tag == "textarea" and name:
            self._area = name
            self._form.fields.append((name, ""))

    def handle_endtag(self, tag):
        if tag == "p":
            self._label = ""
        if tag == "form":
            self._form = None
        elif tag == "select":
            self._select = None
        elif tag == "textarea":
            self._area = None
        elif tag in self.VOID:
            self._hidden -= 1

    def handle_data(self, data):
        if self._area and self._form:
            name, value = self._form.fields.pop()
            self._form.fields.append((name, value + data))
        elif not self._hidden:
            self.words.append(data)
            if self._label:
                self.labelled[self._label] = self.labelled.get(self._label, "") + data
