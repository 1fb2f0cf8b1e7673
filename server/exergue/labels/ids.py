"""A coin's ID: nine random Crockford base32 characters and one ISO/IEC 7064 MOD 37-2 check character.

The check character catches every single slip and every swap of neighbours. IDs whose check
character would fall outside the alphabet are drawn again, so all ten characters read alike.
"""

import re
import secrets

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # Crockford: no I, L, O, U
LENGTH = 10
_VALUES = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"  # ISO/IEC 7064, 37 symbols
_LOOKALIKES = str.maketrans("OIL", "011")
_ADDRESS = re.compile(r"^(?:(?:[a-z][a-z0-9+.-]*://)?[^/?#\s]+/|/)?c/([^/?#]+)/?(?:[?#].*)?$", re.IGNORECASE)


class BadLabel(ValueError):
    """The text is no coin ID; the message says why in one sentence."""


def check_character(body: str) -> str:
    """MOD 37-2 check character of `body`; may be any of the 37 symbols."""
    remainder = 0
    for character in body:
        remainder = 2 * (remainder + _VALUES.index(character)) % 37
    return _VALUES[(38 - remainder) % 37]


def new_id(choice=secrets.choice) -> str:
    """A fresh ID such as `7K3M9QX2B4`; `choice` draws one character of a string."""
    while True:
        body = "".join(choice(ALPHABET) for _ in range(LENGTH - 1))
        check = check_character(body)
        if check in ALPHABET:
            return body + check


def parse(text: str) -> str:
    """The ID in typed or scanned text: a bare ID, or any host's /c/<id>.

    Case, spaces, hyphens and the look-alikes O, I, L are forgiven. Raises BadLabel.
    """
    raw = text.strip()
    address = _ADDRESS.match(raw)
    if address:
        raw = address.group(1)
    elif "/" in raw:
        raise BadLabel("That code is not a coin label.")
    plain = re.sub(r"[\s\-\u2010-\u2015]", "", raw).upper().translate(_LOOKALIKES)
    if len(plain) != LENGTH:
        raise BadLabel(f"A coin ID has {LENGTH} characters; this has {len(plain)}.")
    for character in plain:
        if character not in ALPHABET:
            raise BadLabel(f"A coin ID has no “{character}”.")
    if check_character(plain[:-1]) != plain[-1]:
        raise BadLabel("That ID has a slip: its check character does not fit. Read it again.")
    return plain


def parse_all(text: str) -> tuple[list[str], list[str]]:
    """(IDs, each once; a sentence about each word that is none) of labels with blanks, commas or line breaks between them."""
    good, bad = [], []
    for word in text.replace(",", " ").split():
        try:
            good.append(parse(word))
        except BadLabel as problem:
            bad.append(f"“{word}”: {problem}")
    return list(dict.fromkeys(good)), bad


def show(coin_id: str) -> str:
    """The ID as people read it: `7K3M9-QX2B4`."""
    return f"{coin_id[:5]}-{coin_id[5:]}"


def address(base: str, coin_id: str) -> str:
    """What the QR holds. Upper case keeps it in the symbol's alphanumeric mode, and small."""
    return f"{base.rstrip('/')}/C/{coin_id}".upper()
