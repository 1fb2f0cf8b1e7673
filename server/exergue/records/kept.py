"""Tables that no fold makes: the journal, and what is no fact (credentials, devices, photo files). See tables.py."""

import json

from peewee import (
    BigIntegerField,
    BooleanField,
    DatabaseProxy,
    IntegerField,
    Model,
    TextField,
)

database = DatabaseProxy()


class JSONText(TextField):
    """A JSON value kept as compact text, the same bytes for the same value."""

    def db_value(self, value):
        return None if value is None else dumps(value)

    def python_value(self, value):
        return None if value is None else json.loads(value)


def dumps(value) -> str:
    """Compact JSON with sorted keys: one text for one value."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=True)


class Base(Model):
    class Meta:
        database = database
        legacy_table_names = False


class Meta(Base):
    key = TextField(primary_key=True)
    value = TextField()


# --- kept: what is no fact -------------------------------------------------------------------


class Owner(Base):
    name = TextField()
    password = TextField()  # salted scrypt hash
    session = TextField()  # changes with the password: older sign-ins end
    created_ms = BigIntegerField()


class Throttle(Base):
    key = TextField(primary_key=True)
    tokens = TextField()
    stamp_ms = BigIntegerField()


class Device(Base):
    id = TextField(primary_key=True)
    name = TextField()
    role = TextField()
    token = TextField(null=True, unique=True)  # SHA-256 of the device's token
    next_n = IntegerField(default=1)
    paired_ms = BigIntegerField()
    contact_ms = BigIntegerField(null=True)
    skew_ms = BigIntegerField(null=True)  # device clock minus ours at the last contact
    cursor = BigIntegerField(default=0)
    revoked_ms = BigIntegerField(null=True)


class PairCode(Base):
    code = TextField(primary_key=True)  # SHA-256
    role = TextField()
    label = TextField()
    expires_ms = BigIntegerField()
    used_ms = BigIntegerField(null=True)


class Notice(Base):
    device = TextField(null=True)
    kind = TextField()
    text = TextField()
    when_ms = BigIntegerField()
    seen = BooleanField(default=False)


class PhotoFile(Base):
    photo = TextField(primary_key=True)
    digest = TextField()  # SHA-256 of the bytes that came in
    width = IntegerField()
    height = IntegerField()
    size = IntegerField()
    received_ms = BigIntegerField()


# --- the journal -----------------------------------------------------------------------------


class Fact(Base):
    seq = BigIntegerField(primary_key=True)
    id = TextField(unique=True)
    device = TextField()
    n = IntegerField()
    kind = TextField(index=True)
    when_ms = BigIntegerField()
    received_ms = BigIntegerField()
    body = JSONText()
    digest = TextField()
    verdict = TextField()
    code = TextField(null=True)
    message = TextField(null=True)
    now = JSONText(null=True)

    class Meta:
        indexes = ((("device", "n"), True),)


KEPT = [Meta, Owner, Throttle, Device, PairCode, Notice, PhotoFile, Fact]
