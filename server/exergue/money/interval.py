"""How wide four sales in five spread: quantiles of what was seen, and of Student's t where little was seen."""


def student(part: float, freedom: float) -> float:
    """The half-width, in standard deviations, that holds `part` (such as 0.80) of Student's t with that many degrees."""
    from scipy.special import stdtrit

    return float(stdtrit(freedom, (1 + part) / 2))


def quantile(values, weights, part: float) -> float:
    """The least of `values` at which `part` of the weight is reached (the inverted distribution; part 0.5: lower median)."""
    import numpy as np

    order = np.argsort(values)
    reached = np.cumsum(weights[order])
    return float(values[order][min(np.searchsorted(reached, part * reached[-1]), len(values) - 1)])


def widening(surprises: list[tuple], part: float, counts: float) -> float:
    """The half-width, in predicted standard deviations, that holds `part` of further sales.

    `surprises`: for each type, how far each sale lay from what the others said of it (≥ 0, in such deviations), and
    weights. Their weighted quantile, drawn towards Student's t as if that rested on `counts` of them. It has as many
    degrees of freedom as there are sales, and three more: what worth.toml supposes of spreads counts for something.
    """
    import numpy as np

    far = np.concatenate([far for far, _ in surprises]) if surprises else np.zeros(0)
    weight = np.concatenate([weight for _, weight in surprises]) if surprises else np.zeros(0)
    expected = student(part, 3 + float(weight.sum()))
    if not len(far):
        return expected
    rests = float(weight.sum())
    return (quantile(far, weight, part) * rests + expected * counts) / (rests + counts)
