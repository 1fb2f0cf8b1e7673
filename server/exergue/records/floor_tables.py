"""Folded tables of the show floor that hang on no coin's record; see tables.py."""

from peewee import BigIntegerField, BooleanField, CompositeKey, IntegerField, TextField

from .kept import Base, JSONText


class Contact(Base):
    id = TextField(primary_key=True)
    name = TextField(default="", index=True)
    table = TextField(default="")
    phone = TextField(default="")
    note = TextField(default="")
    gone = TextField(default="")  # the fact that took it off the list
    fact_seq = BigIntegerField()


class Sighting(Base):
    """A coin seen on somebody's table."""

    id = TextField(primary_key=True)
    contact = TextField(null=True, index=True)
    dealer = TextField(default="")
    table = TextField(default="")
    show = TextField(null=True, index=True)
    date = TextField(default="")
    want = TextField(null=True, index=True)
    denom = TextField(default="")
    type = TextField(default="")
    title = TextField(default="")
    year = IntegerField(null=True)
    mint = TextField(default="")
    grade = TextField(default="")
    ask = BigIntegerField(null=True)
    offer = BigIntegerField(null=True)
    answer = TextField(default="")
    photo = TextField(null=True)
    note = TextField(default="")
    gone = TextField(default="")
    fact_seq = BigIntegerField()


class Round(Base):
    """One round of counting; `seen` are the different labels in it, kept as they come so that no scan reads the others."""

    id = TextField(primary_key=True)
    show = TextField(null=True, index=True)
    seq = BigIntegerField()
    when_ms = BigIntegerField()
    began_ms = BigIntegerField()  # by the desk's clock: when its first entry came
    seen = IntegerField()
    scans = IntegerField()


class Seen(Base):
    """One label scanned in a round. The book need not know it."""

    fact = TextField()
    coin = TextField()
    round = TextField()
    place = TextField()
    how = TextField()
    when_ms = BigIntegerField()
    device = TextField()

    class Meta:
        primary_key = CompositeKey("fact", "coin")
        indexes = ((("round", "coin"), False),)


class Drawer(Base):
    """The cash drawer counted; the last count of a show stands."""

    fact = TextField(primary_key=True)
    show = TextField(index=True)
    seq = BigIntegerField()
    date = TextField()
    pieces = JSONText()  # [{cents, number}]
    cents = BigIntegerField()


class Closing(Base):
    """A show was closed or opened again; the last word stands."""

    fact = TextField(primary_key=True)
    show = TextField(index=True)
    seq = BigIntegerField()
    closed = BooleanField()
    date = TextField()


class Settled(Base):
    """A difference explained in words."""

    fact = TextField(primary_key=True)
    show = TextField(null=True)
    key = TextField(index=True)
    seq = BigIntegerField()
    note = TextField()
