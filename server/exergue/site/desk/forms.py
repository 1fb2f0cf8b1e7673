"""Form fields of the trade: money, grades, days, coin IDs. Each turns what is typed into what a fact holds."""

import json
from datetime import date

from flask import g
from wtforms import Field, HiddenField, IntegerField, StringField, ValidationError
from wtforms.fields.choices import SelectChoice, SelectField
from wtforms.widgets import DateInput, TextInput

from ...coins import grades
from ...labels import ids
from ...money import cents
from .. import jsonbody


def plain_text(form, field):
    """Validator: no control characters, which the journal would refuse."""
    if any(ord(c) < 32 and c not in "\r\n\t" for c in field.data or ""):
        raise ValidationError("This holds a control character; type it again.")


def text(value: str | None) -> str:
    """Typed text as it is kept: trimmed, lines ended by a newline alone."""
    return (value or "").replace("\r\n", "\n").replace("\r", "\n").strip()


class OneOf(SelectField):
    """One of a few; `choices` are (value, label) or (value, label, group). "" where the form did not say."""

    def __init__(self, label=None, validators=None, choices=(), **more):
        super().__init__(label, validators, choices=options(choices), **{"default": "", **more})

    def offer(self, choices) -> None:
        self.choices = options(choices)


def options(choices) -> list[SelectChoice]:
    return [SelectChoice(one[0], one[1], optgroup=one[2] if len(one) > 2 else None) for one in choices]


class LineField(StringField):
    """One line or a paragraph of text, at most `most` characters."""

    def __init__(self, label=None, validators=(), most=120, **more):
        super().__init__(label, [*validators, plain_text], **more)
        self.most = most

    def process_formdata(self, values):
        self.data = text(values[0] if values else self.data)

    def pre_validate(self, form):
        if len(self.data or "") > self.most:
            raise ValidationError(f"At most {self.most} characters; this has {len(self.data)}.")


class MoneyField(Field):
    """An amount in the book's currency; data is minor units, or None where nothing was typed."""

    widget = TextInput()

    def process_formdata(self, values):
        self.data = None
        if values and values[0].strip():
            try:
                self.data = cents.parse(values[0], g.currency)
            except cents.BadAmount as problem:
                raise ValueError(str(problem)) from None
            if self.data < 0:
                raise ValueError("An amount may not be below zero.")

    def _value(self):
        return self.raw_data[0] if self.raw_data else cents.plain(self.data, g.currency)


class GradeField(Field):
    """A grade as people write it; data is its one written form, or ""."""

    widget = TextInput()

    def process_formdata(self, values):
        self.data = ""
        if values and values[0].strip():
            try:
                self.data = str(grades.parse(values[0]))
            except grades.BadGrade as problem:
                raise ValueError(str(problem)) from None

    def _value(self):
        return self.raw_data[0] if self.raw_data else self.data or ""


class DayField(Field):
    """A day; data is YYYY-MM-DD or ""."""

    widget = DateInput()

    def process_formdata(self, values):
        self.data = ""
        if values and values[0].strip():
            try:
                self.data = date.fromisoformat(values[0].strip()).isoformat()
            except ValueError:
                raise ValueError("Give the day as 2026-03-14.") from None

    def _value(self):
        return self.raw_data[0] if self.raw_data else self.data or ""


class WholeField(IntegerField):
    """A whole number, or None where nothing was typed."""

    def process_formdata(self, values):
        if values and not values[0].strip():
            self.data = None
            return
        try:
            super().process_formdata(values)
        except ValueError:
            raise ValueError("Give a whole number.") from None


class CoinIdField(Field):
    """A coin's ID, typed or scanned; data is the ID, or "" where nothing was typed."""

    widget = TextInput()

    def process_formdata(self, values):
        self.data = ""
        if values and values[0].strip():
            try:
                self.data = ids.parse(values[0])
            except ids.BadLabel as problem:
                raise ValueError(str(problem)) from None

    def _value(self):
        return self.raw_data[0] if self.raw_data else ids.show(self.data) if self.data else ""


class SeenField(HiddenField):
    """What the editor saw when the form was made, as JSON: lets a second editor be noticed."""

    def process_formdata(self, values):
        try:
            self.data = jsonbody.parsed(values[0]) if values else {}
        except ValueError:
            self.data = {}
        if not isinstance(self.data, dict):
            self.data = {}

    def _value(self):
        return json.dumps(self.data or {}, ensure_ascii=False)


def changed(seen: dict, wanted: dict) -> dict:
    """The fields whose wanted value is not what the editor saw."""
    return {name: value for name, value in wanted.items() if seen.get(name) != value}
