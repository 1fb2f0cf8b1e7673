"""Tables of a book.

The journal (`Fact`) is the truth. Tables in FOLDED are computed from it and may be dropped and
made again; tables in KEPT hold what is no fact: credentials, devices, photo files.
Money is integer minor units, moments are milliseconds since 1970 UTC, days are YYYY-MM-DD.
"""

from peewee import BigIntegerField, BooleanField, CompositeKey, ForeignKeyField, IntegerField, TextField

from .floor_tables import Closing, Contact, Drawer, Round, Seen, Settled, Sighting
from .kept import (  # noqa: F401 - this is where tables are looked for
    KEPT, Base, Device, Fact, JSONText, Meta, Notice, Owner, PairCode, PhotoFile, Throttle, database, dumps,
)  # fmt: skip


class About(Base):
    """Coin about which a fact speaks: lets history find facts without reading every body."""

    coin = TextField()
    seq = BigIntegerField()
    fact = TextField()

    class Meta:
        primary_key = CompositeKey("coin", "seq")  # key columns first: SQLite 3.40 checks others wrongly
        without_rowid = True


class Voided(Base):
    fact = TextField(primary_key=True)
    by = TextField()


class Coin(Base):
    id = TextField(primary_key=True)
    state = TextField(index=True)
    denom = TextField(default="")
    type = TextField(default="")
    title = TextField(default="")
    year = IntegerField(null=True)
    mint = TextField(default="")
    variety = TextField(default="")
    grade = TextField(default="")
    grade_number = IntegerField(null=True)
    certified_by = TextField(default="")
    certificate = TextField(default="")
    place = TextField(default="", index=True)
    ask = BigIntegerField(null=True)
    floor = BigIntegerField(null=True)
    publish = JSONText(default=list)
    pieces = IntegerField(default=1)  # more than 1: a lot
    left = IntegerField(default=1)  # pieces that are ours or with us still, wherever they are
    held = TextField(default="")
    theirs = BooleanField(default=False)  # somebody else's coin, with us on memo or consignment
    cost = BigIntegerField(null=True)  # all-in: what it came in for, and later costs
    cost_left = BigIntegerField(null=True)  # of a lot partly gone, of what is left; else the same as `cost`
    made_by = TextField(index=True)  # the fact that made this record
    fact_seq = BigIntegerField()  # journal number of the last fact that changed it
    fact_device = TextField()
    words = TextField(default="")  # lower case, for the desk's search


class Note(Base):
    fact = TextField(primary_key=True)
    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    when_ms = BigIntegerField()
    device = TextField()
    text = TextField()


class Check(Base):
    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    key = TextField()
    answer = TextField()
    note = TextField()
    when_ms = BigIntegerField()
    fact = TextField()

    class Meta:
        primary_key = CompositeKey("coin", "key")


class Photo(Base):
    photo = TextField(primary_key=True)
    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    side = TextField()
    digest = TextField()
    fact = TextField(unique=True)


class Purchase(Base):
    """How coins came in: bought, or by another road."""

    fact = TextField(primary_key=True)
    how = TextField(default="purchase")  # purchase, trade, opening, inherited, gift, found
    date = TextField()
    party = TextField(index=True)
    show = TextField(null=True, index=True)
    payment = TextField(null=True)
    payments = JSONText(default=list)  # [{how, cents}], where several ways are given
    note = TextField()
    costs = JSONText()  # as entered: [{what, cents}]
    total = BigIntegerField()
    foreign = JSONText(null=True)
    day = TextField(default="")  # from which it counts: fold/dating.py
    at = BigIntegerField(default=0)  # its place among what counts from that day: twice its number, or just before what it must precede


class Bought(Base):
    """One coin's share of a purchase, line by line; no total: nobody knows what it cost."""

    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    purchase = ForeignKeyField(Purchase, on_delete="CASCADE", column_name="purchase")
    costs = JSONText()
    total = BigIntegerField(null=True)
    since = TextField(null=True)  # a gift counts as held from the donor's day on
    value = BigIntegerField(null=True)  # of a gift when it was given: the basis for a loss, where it is the lower
    want = TextField(null=True, index=True)  # the want that the coin fills

    class Meta:
        primary_key = CompositeKey("coin", "purchase")


class Added(Base):
    """One coin's share of a later cost, line by line."""

    fact = TextField()
    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    seq = BigIntegerField()
    date = TextField()
    party = TextField()
    costs = JSONText()
    total = BigIntegerField()
    note = TextField()
    day = TextField(default="")  # from which it counts

    class Meta:
        primary_key = CompositeKey("fact", "coin")


class Sale(Base):
    """One coin's line of a sale or ticket."""

    fact = TextField()
    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    price = BigIntegerField()
    pieces = IntegerField(default=1)
    costs = JSONText()
    party = TextField(index=True)
    date = TextField()
    show = TextField(null=True, index=True)
    payment = TextField(null=True)
    note = TextField()
    live = BooleanField()  # false: it clashes with another that stands

    class Meta:
        primary_key = CompositeKey("fact", "coin")


class Deal(Base):
    """The head of an entry about money or whereabouts that is no purchase and no sale of one coin."""

    fact = TextField(primary_key=True)
    kind = TextField()
    how = TextField(default="")  # memo: memo, consignment; away: why; lost: how; withdrawn: to; money: what
    way = TextField(default="")  # memo: out, in; transfer: the way of payment where it goes
    date = TextField()
    due = TextField(null=True)
    party = TextField(default="", index=True)
    show = TextField(null=True, index=True)
    cents = BigIntegerField(null=True)  # ticket: price; return: refund; trade: boot; lost: reimbursed; money: amount
    discount = BigIntegerField(null=True)
    tax = JSONText(null=True)  # {place, rate, cents}
    exempt = JSONText(null=True)
    costs = JSONText(default=list)
    payments = JSONText(default=list)
    about = TextField(default="")
    place = TextField(default="")
    note = TextField(default="")


class Move(Base):
    """What an entry does to the whereabouts of a coin; `fold/standing.py` reads a coin's moves in order."""

    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    fact = TextField(index=True)
    seq = BigIntegerField()
    step = TextField()  # out, return, off, back, lost, theirs, ours, held, came (more pieces of a lot)
    state = TextField(default="")  # the state that it leads to; held: how it is held
    was = TextField(default="")  # back: the state before; held: how it was held before
    pieces = IntegerField(default=1)
    cents = BigIntegerField(null=True)  # its share: price, refund, value, agreed net
    costs = BigIntegerField(default=0)  # its share of what that cost us
    of = TextField(null=True)  # return: the sale; out, lost: the entry by which the pieces meant came
    day = TextField(default="")  # from which it counts
    live = BooleanField(default=True)  # false: it clashes with another that stands

    class Meta:
        primary_key = CompositeKey("coin", "fact")


class Receipt(Base):
    """The photo of a deal's receipt: of the entry of the deal itself, or of one that added it later."""

    fact = TextField(primary_key=True)  # that names the photo
    of = TextField(index=True)  # the deal
    photo = TextField(index=True)


class Want(Base):
    id = TextField(primary_key=True)
    denom = TextField(default="")
    type = TextField(default="")
    title = TextField(default="")
    years = TextField(default="")
    grade_from = TextField(default="")
    grade_to = TextField(default="")
    ceiling = BigIntegerField(null=True)
    priority = TextField(default="usual")
    note = TextField(default="")
    goal = TextField(null=True, index=True)  # the set, and the slot of it that it is to fill
    slot = TextField(default="")
    types = JSONText(default=list)
    fact_seq = BigIntegerField()
    gone = TextField(default="")  # the fact that took it off the list


class Goal(Base):
    """A set: its slots as entered. What fills them is worked out for its card (goals.py) and stored nowhere else."""

    id = TextField(primary_key=True)
    name = TextField(default="")
    template = TextField(default="")
    slots = JSONText(default=list)
    note = TextField(default="")
    fact_seq = BigIntegerField()


class Show(Base):
    id = TextField(primary_key=True)
    name = TextField(default="")
    place = TextField(default="")
    table = TextField(default="")
    starts = TextField(default="")
    ends = TextField(default="")
    float = BigIntegerField(null=True)
    tax_rate = TextField(default="")  # per cent, decimal text
    tax_place = TextField(default="")
    note = TextField(default="")
    budget = BigIntegerField(null=True)
    fact_seq = BigIntegerField()


class Pack(Base):
    """One entry's word on whether a coin goes to a show; the last one counts."""

    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    fact = TextField(index=True)
    show = TextField()
    seq = BigIntegerField()
    box = TextField()
    taken_out = BooleanField()

    class Meta:
        primary_key = CompositeKey("coin", "fact")


class Packed(Base):
    """The coins that are packed for a show, as the last word on each says."""

    coin = ForeignKeyField(Coin, on_delete="CASCADE", column_name="coin")
    show = TextField(index=True)
    seq = BigIntegerField()
    box = TextField()

    class Meta:
        primary_key = CompositeKey("coin", "show")


class Evidence(Base):
    fact = TextField(primary_key=True)
    date = TextField(default="", index=True)
    price = BigIntegerField(null=True)
    fee_included = BooleanField(null=True)
    denom = TextField(default="")
    type = TextField(default="", index=True)
    title = TextField(default="")
    year = IntegerField(null=True)
    mint = TextField(default="")
    grade = TextField(default="")
    grade_number = IntegerField(null=True)
    problem = BooleanField(null=True)
    source = TextField(default="")


class Blank(Base):
    id = TextField(primary_key=True)
    fact = TextField()
    printed_ms = BigIntegerField()


class Look(Base):
    """Something under *Needs a look*, until a person decides."""

    id = TextField(primary_key=True)
    kind = TextField()  # edit, check, sold_twice, label_used_twice, dates, unknown_kind, fault
    subject = TextField()  # coin/7K…, want/…, show/…, setting/…
    fact = TextField()  # the fact that could not be merged
    offer = JSONText()
    open = BooleanField(index=True)
    choice = TextField(null=True)
    decided_by = TextField(null=True)


class Setting(Base):
    key = TextField(primary_key=True)
    value = JSONText()


class Import(Base):
    fact = TextField(primary_key=True)
    file = TextField()
    rows = IntegerField()
    when_ms = BigIntegerField()


class Card(Base):
    """What a device may hold of one thing. `open` for every role, `own` for the owner; no `open`: gone."""

    kind = TextField()
    id = TextField()
    seq = BigIntegerField(index=True)
    open = TextField(null=True)
    own = TextField(null=True)

    class Meta:
        primary_key = CompositeKey("kind", "id")
        without_rowid = True


class CardSum(Base):
    """Count and digest sum of the live cards of a kind."""

    kind = TextField(primary_key=True)
    count = IntegerField()
    sum = BigIntegerField()


FOLDED = [
    About, Voided, Coin, Note, Check, Photo, Purchase, Bought, Added, Sale, Deal, Move, Receipt,
    Want, Goal, Show, Contact, Sighting, Pack, Packed, Round, Seen, Drawer, Closing, Settled, Evidence, Blank, Look, Setting, Import, Card,
    CardSum,
]  # fmt: skip
ALL = KEPT + FOLDED
