"""The form of a coin's own fields, on the edit page and where a coin is new."""

from flask_wtf import FlaskForm
from wtforms import SelectMultipleField
from wtforms.widgets import CheckboxInput, ListWidget

from ...coins import denominations
from ...records import knowledge
from ...records.tables import Coin
from .forms import GradeField, LineField, MoneyField, OneOf, WholeField, options

PUBLISH = [("identity", "What it is"), ("grade", "Grade"), ("price", "Asking price"), ("photos", "Photos")]
NAMES = ("denom", "type", "title", "year", "mint", "variety", "grade", "certified_by", "certificate", "place", "ask",
         "floor", "publish")  # fmt: skip


class Ticks(SelectMultipleField):
    """Several of a few words, as check boxes."""

    widget, option_widget = ListWidget(prefix_label=False), CheckboxInput()

    def __init__(self, label=None, validators=None, choices=(), **more):
        super().__init__(label, validators, choices=options(choices), **more)


def denomination_choices() -> list[tuple[str, str]]:
    return [("", "Not known yet")] + [(one.key, one.name) for one in denominations.ALL.values()]


def type_choices() -> list[tuple]:
    """Types of the catalogue, grouped by denomination."""
    found = [("", "Not in the catalogue, or not known")]
    for key, one in knowledge.catalogue().types.items():
        years = f"{one.years[0]}–{one.years[-1]}" if len(one.years) > 1 else str(one.years[0])
        found.append((key, f"{one.name}, {years}", knowledge.denomination_name(one.denomination)))
    return found


class CoinFields(FlaskForm):
    denom = OneOf("Denomination")
    type = OneOf("Type", validate_choice=False)
    title = LineField("Description", most=120)
    year = WholeField("Year")
    mint = LineField("Mint mark", most=4)
    variety = LineField("Variety", most=120)
    grade = GradeField("Grade")
    certified_by = LineField("Certified by", most=60)
    certificate = LineField("Certificate number", most=40)
    place = LineField("Place", most=60)
    ask = MoneyField("Asking price")
    floor = MoneyField("Floor")
    publish = Ticks("Anyone who scans the label may see", choices=PUBLISH)

    def __init__(self, *args, **more):
        super().__init__(*args, **more)
        self.denom.offer(denomination_choices())
        self.type.offer(type_choices())

    def wanted(self) -> dict:
        """The coin's fields as a fact holds them."""
        fields = {name: getattr(self, name).data for name in NAMES}
        fields["publish"] = sorted(fields["publish"] or [])
        fields["mint"] = fields["mint"].upper()
        if fields["type"] and not fields["denom"]:
            fields["denom"] = fields["type"].partition("/")[0]
        return fields

    def refuse(self, problem) -> None:
        """Show a refusal of the book at the field that it speaks of."""
        where = {"never_struck": self.year, "unknown_type": self.type, "unknown_denomination": self.denom,
                 "bad_grade": self.grade}.get(problem.code)  # fmt: skip
        if where is None:
            self.form_errors = [*self.form_errors, str(problem)]
        else:
            where.errors = [*where.errors, str(problem)]


def seen(coin_id: str) -> dict:
    """What an editor of this coin sees: its fields as they are kept, and the journal number they are of."""
    coin = Coin.get_by_id(coin_id)
    return {"seq": coin.fact_seq, "fields": {name: getattr(coin, name) for name in NAMES}}
