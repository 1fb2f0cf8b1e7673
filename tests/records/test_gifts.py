"""What a gift's card says of its gain: two bases, one for a gain and one for a loss, as the accounts and the reports have it."""

import pytest

from exergue.records import books, proof, refold
from tests.records.test_money_facts import card, ticket

BASIS, VALUE = 1_000_000, 800_000


def gift(anna, value=VALUE, basis=BASIS, pieces=None):
    coin = anna.new_id()
    row = {"coin": coin, "set": {"title": "Dollar"}} | {k: v for k, v in (("value", value), ("basis", basis), ("pieces", pieces)) if v is not None}
    assert anna.say("acquired", how="gift", coins=[row], date="2026-03-14").verdict == "applied"
    return coin


@pytest.mark.parametrize(("price", "gain"), [(1_200_000, 200_000), (700_000, -100_000), (900_000, 0), (1_000_000, 0), (800_000, 0)])
def test_a_gift_worth_less_than_its_donors_basis(book, anna, price, gain):
    """IRS Pub. 551, "Property Received as a Gift": basis 10,000, value 8,000 (from a restatement); between the two Treas. Reg.
    1.1015-1 has neither gain nor loss."""
    coin = gift(anna)
    assert (card(book, coin)["own"]["cost"], card(book, coin)["own"]["loss_basis"]) == (BASIS, VALUE)
    ticket(anna, coin, price=price)
    own = card(book, coin)["own"]
    assert own["sale"]["gain"] == gain == books.build(book).books.gains()[0].gain
    assert "loss_basis" not in own and proof.differences(books.build(book)) == [] and refold.verify() == []


def test_a_gift_worth_more_has_one_basis(book, anna):
    coin = gift(anna, value=BASIS + 1)
    assert "loss_basis" not in card(book, coin)["own"]
    ticket(anna, coin, price=700_000)
    assert card(book, coin)["own"]["sale"]["gain"] == 700_000 - BASIS


def test_of_a_gift_whose_value_nobody_knows_no_loss_is_said(book, anna):
    coin = gift(anna, value=None)
    assert card(book, coin)["own"]["loss_basis"] is None
    ticket(anna, coin, price=700_000)
    assert card(book, coin)["own"]["sale"]["gain"] is None


def test_a_later_cost_raises_both_bases(book, anna):
    coin = gift(anna)
    anna.say("cost", coins=[{"coin": coin}], costs=[{"what": "grading", "cents": 5_000}], date="2026-03-15")
    assert (card(book, coin)["own"]["cost"], card(book, coin)["own"]["loss_basis"]) == (BASIS + 5_000, VALUE + 5_000)


def test_pieces_of_a_gift_take_their_part_of_both_bases(book, anna):
    """Ten pieces; three at 900.00 each lie between 800.00 and 1,000.00 a piece, two at 700.00 each lose 200.00."""
    coin = gift(anna, pieces=10)
    ticket(anna, {"coin": coin, "pieces": 3}, price=270_000)
    own = card(book, coin)["own"]
    assert own["moves"][-1]["gain"] == 0 and (own["cost_left"], own["loss_basis"]) == (700_000, 560_000)
    ticket(anna, {"coin": coin, "pieces": 2}, price=140_000)
    assert card(book, coin)["own"]["moves"][-1]["gain"] == -20_000
    assert [each.gain for each in books.build(book).books.gains()] == [0, -20_000]
    assert proof.differences(books.build(book)) == [] and refold.verify() == []
