"""Under which names and addresses phones on this network can reach this computer."""

import contextlib
import ipaddress
import re
import socket
import subprocess
import sys
from dataclasses import dataclass

# The ranges that no stranger's server can have: RFC 1918, loopback, link-local (RFC 3927), RFC 4193.
PRIVATE = tuple(
    ipaddress.ip_network(block)
    for block in ("127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16",
                  "::1/128", "fc00::/7")
)  # fmt: skip


@dataclass(frozen=True)
class Here:
    """This computer on its network: `coins.local`, and its private addresses, loopback not among them."""

    name: str
    addresses: tuple[ipaddress.IPv4Address, ...]

    @property
    def names(self) -> tuple[str, ...]:
        return (self.name, "localhost")


def is_private(address: ipaddress.IPv4Address | ipaddress.IPv6Address) -> bool:
    return any(address.version == block.version and address in block for block in PRIVATE)


def look() -> Here:
    return Here(local_name(), private_addresses())


def private_addresses() -> tuple[ipaddress.IPv4Address, ...]:
    """IPv4 alone (nobody types the other kind); none outside PRIVATE, as the authority may not vouch for those."""
    import ifaddr

    found = set()
    for adapter in ifaddr.get_adapters():
        for ip in adapter.ips:
            if ip.is_IPv4 and is_private(address := ipaddress.IPv4Address(ip.ip)) and not address.is_loopback:
                found.add(address)
    return tuple(sorted(found))


def local_name() -> str:
    """The name of this computer in multicast DNS (RFC 6762), such as `coins.local`."""
    host = ""
    if sys.platform == "darwin":  # its host name may differ from the one it answers to
        with contextlib.suppress(OSError, subprocess.SubprocessError):
            host = subprocess.run(["scutil", "--get", "LocalHostName"],
                                  capture_output=True, text=True, timeout=5).stdout  # fmt: skip
    label = (host.strip() or socket.gethostname()).split(".")[0].lower()
    return (re.sub(r"[^a-z0-9-]+", "-", label).strip("-") or "desk") + ".local"


def answers(here: Here) -> bool:
    """Whether the `.local` name leads to this computer, as far as this computer can tell."""
    try:
        found = {info[4][0].split("%")[0] for info in socket.getaddrinfo(here.name, None)}
    except OSError:
        return False
    return any(str(address) in found for address in here.addresses)


def everywhere() -> str:
    """The address that means every interface, IPv4 and IPv6 where one socket can serve both."""
    return "::" if sys.platform != "win32" and socket.has_dualstack_ipv6() else "0.0.0.0"


def port_is_free(host: str, port: int) -> bool:
    """Whether nobody listens there yet. granian alone would not say: it shares ports (SO_REUSEPORT)."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as trial:
        if sys.platform == "win32":
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)  # connections that linger do not count
        try:
            trial.bind((host, port))
        except OSError:
            return False
    return True
