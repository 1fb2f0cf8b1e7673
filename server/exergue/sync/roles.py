"""What a device of each role may hold. The owner's part of a card is left out in `cards.text`."""

KINDS = {
    "owner": ("blank", "book", "coin", "goal", "show", "want"),
    "helper": ("blank", "book", "coin", "goal", "show"),  # no evidence, no accounts, no ceilings
}
