"""From what was asked for on the command line to where the desk listens and what it is called."""

import argparse
from dataclasses import dataclass
from urllib.parse import urlsplit

from exergue.commands import Wrong
from exergue.serving import addresses
from exergue.serving.settings import Written

PORT = 2646  # COIN on a telephone's keys
HIGHEST = 65533  # two more follow with --lan
LOOPBACK = ("localhost", "127.0.0.1", "::1")


@dataclass(frozen=True)
class Wish:
    """What the user asked for; None where they said nothing."""

    host: str | None = None
    port: int | None = None
    lan: bool = False
    base_address: str | None = None
    proxy_hops: int | None = None

    @classmethod
    def of(cls, args: argparse.Namespace) -> "Wish":
        return cls(args.host, args.port, args.lan, args.base_address, args.proxy_hops)


@dataclass(frozen=True)
class Plan:
    host: str
    port: int
    lan: bool
    base_address: str  # without a slash at the end
    proxy_hops: int

    @property
    def trust_port(self) -> int:
        """Where plain HTTP shows how to trust the book's authority (with lan)."""
        return self.port + 1

    @property
    def desk_port(self) -> int:
        """Where this computer's own browser reaches the desk over plain HTTP (with lan)."""
        return self.port + 2

    @property
    def desk_address(self) -> str:
        """The desk as the browser of this computer best reaches it."""
        return f"http://localhost:{self.desk_port}" if self.lan else self.base_address


def make(wish: Wish, written: Written, here: addresses.Here, *, move: bool = False) -> Plan:
    """Settle a wish, which goes before what is `written` in book.toml. Raises Wrong.

    With `move`, a busy port gives way to the next free one unless the user named it.
    """
    port = wish.port if wish.port is not None else PORT
    if not 1 <= port <= HIGHEST:
        raise Wrong(f"A port lies between 1 and {HIGHEST}; {port} does not.")
    if wish.lan and wish.base_address:
        raise Wrong("--lan finds its own address; --base-address is for a desk behind a reverse proxy.")
    host = wish.host or (addresses.everywhere() if wish.lan else "127.0.0.1")
    host = "127.0.0.1" if host == "localhost" else host
    while not free(host, port, wish.lan):
        if not move or wish.port is not None or port > PORT + 100:
            ports = f"One of the ports {port} to {port + 2}" if wish.lan else f"Port {port}"
            raise Wrong(f"{ports} is in use, or {host} is no address of this computer; choose another with --port.")
        port += 3
    if wish.lan:
        return Plan(host, port, True, f"https://{called(here)}:{port}", 0)
    if base := wish.base_address or written.base_address:
        hops = wish.proxy_hops if wish.proxy_hops is not None else written.proxy_hops
        return Plan(host, port, False, checked(base), checked_hops(hops))
    if host not in LOOPBACK:
        raise Wrong("Over plain HTTP others on the network could read the book: use --lan, "
                    "or --base-address with a reverse proxy that speaks HTTPS.")  # fmt: skip
    return Plan(host, port, False, f"http://localhost:{port}" if host == "127.0.0.1" else bare(host, port), 0)


def free(host: str, port: int, lan: bool) -> bool:
    """Whether everything that will listen can."""
    wanted = [(host, port), *([(host, port + 1), ("127.0.0.1", port + 2)] if lan else [])]
    return all(addresses.port_is_free(*each) for each in wanted)


def bare(host: str, port: int) -> str:
    return f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"


def called(here: addresses.Here) -> str:
    """The `.local` name where it is known to work: it stays when the address changes, and with it a phone's data."""
    if addresses.answers(here) or not here.addresses:
        return here.name
    return str(here.addresses[0])


def checked(base: str) -> str:
    """A base address fit for use: https (or http to this computer), a host, no path. Raises Wrong."""
    parts = urlsplit(base)
    if parts.scheme not in ("http", "https") or not parts.hostname or parts.path.strip("/") or parts.query:
        raise Wrong(f"A base address reads like https://coins.example, without a path; “{base}” does not.")
    if parts.scheme == "http" and parts.hostname not in LOOPBACK:
        raise Wrong("A base address must be https: phones keep no data for a page that came over plain HTTP.")
    return base.rstrip("/")


def checked_hops(hops: int | None) -> int:
    if hops is None:
        raise Wrong("Say how many reverse proxies stand in front with --proxy-hops (most often 1; 0 believes none).")
    if not 0 <= hops <= 5:
        raise Wrong(f"--proxy-hops lies between 0 and 5; {hops} does not.")
    return hops
