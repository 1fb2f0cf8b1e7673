"""What a device of each role may hold. The owner's part of a card is left out in `cards.text`."""

KINDS = {
    "owner": ("blank", "book", "coin", "contact", "goal", "round", "seen", "show", "sighting", "want"),
    "helper": ("blank", "book", "coin", "contact", "goal", "round", "seen", "show", "sighting"),  # no evidence, no accounts, no ceilings
}
