"""Where the things of a row stand when they may not crowd each other. Wished places and least gaps come in, places
go out."""

from itertools import pairwise


def spread(wished: list[float], gaps: list[float]) -> list[float]:
    """The places nearest to the wished ones (least squares) that keep each gap; `gaps[i]` lies between i and i + 1.

    >>> spread([0, 0, 10], [4, 4])
    [-2.0, 2.0, 10.0]
    """
    at = [0.0]
    for gap in gaps:
        at.append(at[-1] + gap)
    # With the gaps taken off, the places must only not decrease: pool neighbours that do (isotonic regression).
    pools: list[tuple[float, int]] = []
    for wish, off in zip(wished, at, strict=True):
        total, many = wish - off, 1
        while pools and pools[-1][0] / pools[-1][1] > total / many:
            earlier, count = pools.pop()
            total, many = total + earlier, many + count
        pools.append((total, many))
    levels = [total / many for total, many in pools for _ in range(many)]
    return [level + off for level, off in zip(levels, at, strict=True)]


def filled(places: list[float | None], widths: list[float]) -> list[float]:
    """Wished places for those that have none: evenly between their neighbours, or beside them by their widths.

    >>> filled([0.0, None, 10.0, None], [2, 2, 2, 2])
    [0.0, 5.0, 10.0, 12.0]
    """
    known = [at for at, place in enumerate(places) if place is not None]
    if not known:
        out, along = [], 0.0
        for width in widths:
            out.append(along + width / 2)
            along += width
        return [place - along / 2 for place in out]
    full = [0.0 if place is None else place for place in places]
    for at in range(known[0] - 1, -1, -1):
        full[at] = full[at + 1] - (widths[at] + widths[at + 1]) / 2
    for at in range(known[-1] + 1, len(places)):
        full[at] = full[at - 1] + (widths[at] + widths[at - 1]) / 2
    for first, last in pairwise(known):
        # Shared out by width, so that a long chain gets more of the way than a short one.
        reach = [(widths[at] + widths[at + 1]) / 2 for at in range(first, last)]
        along, total = 0.0, sum(reach) or 1.0
        for at, step in zip(range(first + 1, last), reach, strict=False):
            along += step
            full[at] = full[first] + (full[last] - full[first]) * along / total
    return full
