"""Coins lost, stolen, destroyed or damaged."""

import pytest

from exergue.money.casualty import BadLoss, loss


def test_stock_goes_through_the_cost_of_sales_once():
    found = loss("stock", "stolen", 500_00, reimbursed=200_00)
    assert (found.loss, found.gain) == (0, 0)
    assert "do not take it twice" in found.note
    assert ("Reimbursed: income", 200_00) in found.lines


def test_a_personal_coin_counts_mostly_in_a_disaster_alone():
    assert not loss("personal", "stolen", 500_00, 800_00, year=2025).counts
    assert loss("personal", "stolen", 500_00, 800_00, year=2017).counts


def test_an_investment_stolen_counts():
    found = loss("investment", "stolen", 500_00, reimbursed=200_00)
    assert (found.loss, found.counts) == (300_00, True)


def test_what_just_cannot_be_found_is_no_theft():
    assert not loss("investment", "missing", 500_00).counts


def test_more_than_it_cost_is_a_gain():
    found = loss("investment", "destroyed", 500_00, reimbursed=700_00)
    assert (found.loss, found.gain) == (0, 200_00)
    assert found.lines[-1] == ("Gain", 200_00)


def test_an_unknown_cost_gives_no_loss():
    assert loss("investment", "stolen", None).loss is None
    assert loss("personal", "damaged", 500_00).loss is None


@pytest.mark.parametrize(
    ("facts", "said"),
    [(("hoard", "lost", 1), "held as"), (("stock", "eaten", 1), "is missing"), (("stock", "lost", -1), "below zero"),
     (("personal", "damaged", 1, 5, 6), "value after")],
)  # fmt: skip
def test_what_cannot_be_is_refused(facts, said):
    with pytest.raises(BadLoss, match=said):
        loss(*facts)
