"""The field for the name of a person in a deal or a move: whatever is typed will do, contacts are offered."""

from markupsafe import Markup
from wtforms.widgets import TextInput

from ...records import reading
from .forms import LineField


class Offering(TextInput):
    """A line of text with the names of the book's contacts to choose from."""

    def __call__(self, field, **more):
        names = Markup().join(Markup('<option value="{}">').format(name) for name in reading.contact_names())
        listed = f"{field.id}-contacts"
        return Markup('{}<datalist id="{}">{}</datalist>').format(super().__call__(field, list=listed, **more), listed, names)


class PartyField(LineField):
    widget = Offering()
