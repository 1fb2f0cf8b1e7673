"""The lines a user reads in the terminal: what is served, where, and how a phone gets in."""

from exergue import asset_dir
from exergue.commands import demo_book
from exergue.serving import lan, terminal
from exergue.serving.addresses import Here
from exergue.serving.authority import Authority
from exergue.serving.plan import Plan


def show(book, plan: Plan, here: Here, set_up_key: str | None, authority: Authority | None, *, demo: bool) -> None:
    if demo:
        print("This is a demo book: its dealer, coins and prices are invented.")
        print(f"To see how a messy file is taken, bring in {asset_dir('sample_inventory') / demo_book.TO_TRY}\n")
    print(f"Book   {book.folder.resolve()}")
    if set_up_key:
        print(f"Desk   {plan.desk_address}/desk/set-up?key={set_up_key}")
        print("       Open this link once to choose the owner's name and password.")
    else:
        print(f"Desk   {plan.desk_address}/desk/")
    print(f"Phone  {plan.base_address}/")
    if authority:
        trusting(plan, here, authority)
    if demo:
        pairing(book, plan)
    print("\nStop with Ctrl-C.", flush=True)


def trusting(plan: Plan, here: Here, authority: Authority) -> None:
    """The first step of a new phone: the page that takes it through trusting the desk."""
    address = lan.trust_address(plan, here)
    print(f"\nA phone that does not trust this desk yet starts at {address}")
    terminal.show(address)
    pairs = authority.fingerprint.split()
    print(f"Its settings must show the authority “{authority.name}” with this SHA-256 fingerprint:")
    print(f"  {' '.join(pairs[:16])}\n  {' '.join(pairs[16:])}")


def pairing(book, plan: Plan) -> None:
    """A fresh one-time code for the owner's phone, with its QR symbol."""
    from exergue.records import devices

    with book.connected():
        code = devices.new_code("owner", "phone")
    print(f"\nPair a phone with the code {code[:4]}-{code[4:]} (good once, within ten minutes), or scan:")
    terminal.show(f"{plan.base_address}/#pair={code}")
    if plan.base_address.startswith("http://localhost"):
        print("As it stands only this computer reaches the desk: try the phone app in a browser here,")
        print("or start again with --lan for a real phone.")
