"""Paired devices: one-time codes, tokens kept as hashes, and what the desk should know of them.

None of it is a fact: credentials are not part of the journal, and are not restored from it.
"""

import hashlib
import secrets
import uuid

from ..labels.ids import ALPHABET
from .clock import now_ms
from .store import write
from .tables import Device, Notice, PairCode
from .throttle import spend

CODE_LENGTH = 8  # 40 bits, single use, ten minutes
CODE_MS = 10 * 60_000
ROLES = ("owner", "helper")
MOST_LOST = 1_000_000  # entries that a phone may say it lost: more is a fault of its numbers, not a gap
PUT_BACK = (
    "The desk was put back from a backup. A phone that was unpaired after that backup was made is paired again, and "
    "the backup cannot tell which. Look through the list under Devices, and unpair each phone that you do not know "
    "or no longer have, or all of them if you are not sure."
)


class PairError(Exception):
    """A code that does not pair; `code` for programs, the message for people."""

    def __init__(self, code: str, message: str):
        super().__init__(message)
        self.code, self.message = code, message


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()


def tidy_code(text: str) -> str:
    """A typed code: case, spaces, hyphens and look-alikes forgiven."""
    return "".join(text.split()).replace("-", "").upper().translate(str.maketrans("OIL", "011"))


def new_code(role: str, label: str = "") -> str:
    """A one-time code for a device of this role. Shown once; kept as a hash."""
    if role not in ROLES:
        raise ValueError(f"no role {role!r}")
    code = "".join(secrets.choice(ALPHABET) for _ in range(CODE_LENGTH))
    with write():
        PairCode.delete().where(PairCode.expires_ms < now_ms() - CODE_MS).execute()
        PairCode.create(code=_hash(code), role=role, label=label, expires_ms=now_ms() + CODE_MS)
    return code


def pair(code: str, name: str, address: str = "") -> tuple[Device, str]:
    """Turn a code into a device and its token. Raises PairError, and throttle.TooMany after many wrong codes."""
    with write():
        spend(f"pair/{address}", capacity=10, per_ms=10 * 60_000)
    with write():
        row = PairCode.get_or_none(PairCode.code == _hash(tidy_code(code)))
        if row is None:
            raise PairError("code_wrong", "This code is not one that the desk gave out. Check it, or make a new one.")
        if row.used_ms is not None:
            raise PairError("code_used", "This code was already used. Make a new one at the desk.")
        if row.expires_ms < now_ms():
            raise PairError("code_expired", "This code is over ten minutes old. Make a new one at the desk.")
        row.used_ms = now_ms()
        row.save()
        return add(name.strip()[:60] or row.label or "Phone", row.role)


def add(name: str, role: str) -> tuple[Device, str]:
    """A new device with a fresh token (256 bits); inside a write transaction."""
    token = secrets.token_urlsafe(32)
    device = Device.create(id=str(uuid.uuid4()), name=name, role=role, token=_hash(token), paired_ms=now_ms())
    return device, token


def by_token(token: str | None) -> Device | None:
    """The device with this token, unless it was revoked."""
    return Device.get_or_none(Device.token == _hash(token), Device.revoked_ms.is_null()) if token else None


def was_revoked(token: str | None) -> bool:
    """Whether this token was a device's that has been revoked since."""
    return bool(token) and Device.select().where(
        Device.token == _hash(token), Device.revoked_ms.is_null(False)).exists()  # fmt: skip


def get(device_id: str) -> Device | None:
    return Device.get_or_none(Device.id == device_id)


def clone_of(device: Device) -> tuple[Device, str]:
    """A new identity for a phone that shares one with another."""
    with write():
        fresh, token = add(f"{device.name} (copy)", device.role)
        notice(device.id, "cloned", f"Two phones used the identity of “{device.name}”; one got its own.")
    return fresh, token


def contact(device: Device, cursor: int, sent_ms: int | None) -> None:
    """Note when a device was last heard of, how far it has read, and how far its clock is off."""
    moment = now_ms()
    device.contact_ms, device.cursor = moment, cursor
    device.skew_ms = None if sent_ms is None else sent_ms - moment
    Device.update(contact_ms=moment, cursor=cursor, skew_ms=device.skew_ms).where(Device.id == device.id).execute()


def may_skip_to(device: Device, n: int) -> bool:
    """Whether `n` can be the number of this device's next entry, with those before it lost."""
    return device.next_n < n <= device.next_n + MOST_LOST


def skip_to(device: Device, n: int) -> None:
    """Go on at number `n`: the entries before it are lost for good, and the desk is told."""
    with write():
        lost = n - device.next_n
        Device.update(next_n=n).where(Device.id == device.id).execute()
        notice(device.id, "lost", f"“{device.name}” no longer holds {lost} earlier entries; they are lost.")
    device.next_n = n


def rename(device_id: str, name: str) -> None:
    with write():
        Device.update(name=name.strip()[:60] or "Phone").where(Device.id == device_id).execute()


def revoke(device_id: str) -> None:
    """The device is told to wipe itself at its next contact, and gets nothing more."""
    with write():
        Device.update(revoked_ms=now_ms()).where(Device.id == device_id, Device.token.is_null(False)).execute()


def revoke_all() -> int:
    """Unpair every device. Returns how many."""
    with write():
        return Device.update(revoked_ms=now_ms()).where(
            Device.token.is_null(False), Device.revoked_ms.is_null()).execute()  # fmt: skip


def leave(device: Device) -> None:
    """A device unpairs itself."""
    with write():
        Device.update(revoked_ms=now_ms()).where(Device.id == device.id).execute()
        notice(device.id, "left", f"“{device.name}” was unpaired on the device itself.")


def listing() -> list[Device]:
    """Devices that were ever paired, the living ones first."""
    return list(
        Device.select().where(Device.token.is_null(False)).order_by(Device.revoked_ms.is_null(False), Device.name)
    )


def names() -> dict[str, str]:
    return {row.id: row.name for row in Device.select(Device.id, Device.name)}


def notice(device_id: str | None, kind: str, text: str, instead: bool = False) -> None:
    """Something the desk should read once: wiped, cloned, restored, put_back, lost, left.

    What stands there unread is not said twice; with `instead`, it gives way to what is known now.
    """
    unread = Notice.device.is_null() if device_id is None else Notice.device == device_id
    unread &= (Notice.kind == kind) & (Notice.seen == False)  # noqa: E712
    if instead:
        Notice.delete().where(unread).execute()
    if not Notice.select().where(unread, Notice.text == text).exists():
        Notice.create(device=device_id, kind=kind, text=text, when_ms=now_ms())


def notices(unseen_only: bool = True) -> list[Notice]:
    rows = Notice.select().order_by(Notice.when_ms.desc())
    return list(rows.where(Notice.seen == False) if unseen_only else rows.limit(100))  # noqa: E712


def mark_seen(notice_id: int) -> None:
    with write():
        Notice.update(seen=True).where(Notice.id == notice_id).execute()
