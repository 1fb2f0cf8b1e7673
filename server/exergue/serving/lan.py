"""What `--lan` adds: the authority and its certificate, the trust page, and renewal while the desk runs."""

import contextlib
import threading

from exergue.serving import addresses, trust
from exergue.serving.authority import Authority
from exergue.serving.plan import Plan

EVERY = 60  # seconds between looks at this computer's addresses


def addressed(plan: Plan, here: addresses.Here) -> tuple[str, ...]:
    """HTTPS addresses that work besides the plan's own: the name, and each private address."""
    every = (f"https://{host}:{plan.port}" for host in (here.name, *here.addresses))
    return tuple(address for address in every if address != plan.base_address)


def trust_address(plan: Plan, here: addresses.Here) -> str:
    """Where a new phone starts: by number, which needs no name service, and which no HSTS header ever covers."""
    return f"http://{here.addresses[0] if here.addresses else here.name}:{plan.trust_port}/"


def show_trust(plan: Plan, authority: Authority, here: addresses.Here) -> trust.TrustServer:
    page = trust.Page(authority.name, authority.fingerprint, plan.base_address, addressed(plan, here))
    server = trust.TrustServer(plan.host, plan.trust_port, trust.answers(authority, page))
    server.start()
    return server


def keep_fresh(authority: Authority, here: addresses.Here, renewed, stop: threading.Event) -> threading.Thread:
    """Look once a minute whether the certificate still fits; call `renewed` when another had to be made."""

    def look() -> None:
        while not stop.wait(EVERY):
            with contextlib.suppress(OSError):  # a full disk now may have room in a minute
                refresh(authority, here, renewed)

    thread = threading.Thread(target=look, daemon=True)
    thread.start()
    return thread


def refresh(authority: Authority, here: addresses.Here, renewed) -> None:
    before = authority.leaf_path.read_bytes()
    now = addresses.Here(here.name, addresses.private_addresses())
    if authority.leaf(now).read_bytes() != before:
        renewed()
