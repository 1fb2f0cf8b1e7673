"""The names by which this desk may be called. Any other Host header is turned away (DNS rebinding)."""

from urllib.parse import urlsplit

from ..serving import addresses

LOOPBACK = ("localhost", "127.0.0.1")


def known(base_address: str | None, lan: bool) -> list[str]:
    """Host names and addresses to answer to: loopback, the base address, with `lan` this machine's own."""
    found = list(LOOPBACK)
    if base_address:
        found.append(urlsplit(base_address).hostname or "")
    if lan:
        own = addresses.look()
        found += [own.name, *map(str, own.addresses)]
    return list(dict.fromkeys(filter(None, found)))


def is_loopback(host: str) -> bool:
    return host.partition(":")[0] in LOOPBACK
