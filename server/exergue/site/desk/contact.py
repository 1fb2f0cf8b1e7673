"""Which phones are out of touch."""

from ...records import devices

QUIET_MS = 7 * 86_400_000  # a phone in use is heard of within a week


def out_of_touch(now_ms: int) -> list:
    """Paired devices not heard of for a week, the longest silent first."""
    paired = [device for device in devices.listing() if device.revoked_ms is None]
    quiet = [device for device in paired if now_ms - (device.contact_ms or device.paired_ms) > QUIET_MS]
    return sorted(quiet, key=lambda device: device.contact_ms or device.paired_ms)
