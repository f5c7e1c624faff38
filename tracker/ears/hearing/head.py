"""The trained head, in plain numpy: what was said, from speech embeddings.

In: embeddings (frames × 96) of one utterance. Out: how likely each class is, and each unit in each frame.
The weights are head_en.npz beside this file, made by `python -m tracker.ears.train`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tracker.ears.hearing.words import classes, units
from tracker.ears.port import EarMissing

Floats = NDArray[np.float32]
ONE_THREAD = 1 << 18
"""A product of matrices of no more than so many multiplications is done by one thread (OpenBLAS, from memory)."""
WEIGHTS = Path(__file__).with_name("head_en.npz")


@dataclass(frozen=True, slots=True)
class Opinion:
    """What the head makes of one utterance."""

    classes: Floats
    """Log-probability of each of `words.classes()`."""
    units: Floats
    """Frames × units, log-probabilities."""
    hidden: Floats
    """Frames × width: what both are decided on; a maker's own recordings are compared here."""
    figures: Floats | None = None
    """Units from which to spell a number where these are better: with the room taken off, number words lose more."""


class Head:
    """Several small networks trained alike but for their seed; their opinions are averaged, which steadies
    them in noise."""

    def __init__(self, weights: dict[str, NDArray[Any]] | None = None) -> None:
        if weights is None:
            try:
                with np.load(WEIGHTS) as f:
                    weights = {name: f[name] for name in f.files}
            except (OSError, ValueError) as error:
                raise EarMissing(
                    f"The built-in ear's {WEIGHTS.name} cannot be read ({error}); install rowteller again."
                ) from None
        weights = unpacked(weights)
        usual = weights.get("usual")
        self.usual: Floats = (
            np.zeros((len(classes()), 96), np.float32) if usual is None else usual.astype(np.float32)
        )
        """The mean embedding of each class in training."""
        self._nets: list[dict[str, Floats]] = []
        for i in range(sum(name.endswith("choose.bias") for name in weights)):
            self._nets.append(
                {
                    name.split(".", 1)[1]: v.astype(np.float32)
                    for name, v in weights.items()
                    if name.startswith(f"{i}.")
                }
            )
        for net in self._nets:
            for name in ("conv1", "conv2"):
                net[f"{name}.taps"] = np.ascontiguousarray(net[f"{name}.weight"].transpose(2, 1, 0))
        shapes = {(len(net["choose.bias"]), len(net["spell.bias"])) for net in self._nets}
        names = weights.get("choose.names")
        other = names is not None and tuple(str(name) for name in names) != classes()
        if other or shapes != {(len(classes()), len(units()))}:
            raise EarMissing(
                "The built-in ear's head was trained for another list of words; run python -m tracker.ears.train."
            )

    def __call__(self, embeddings: Floats) -> Opinion:
        found = [_run(net, embeddings) for net in self._nets]
        hidden = np.concatenate([o.hidden for o in found], axis=1)
        return replace(together(found), hidden=hidden, figures=None)


def together(opinions: list[Opinion]) -> Opinion:
    """Their mean; what is hidden, and what numbers are spelled from, is the first one's."""
    if len(opinions) == 1:
        return opinions[0]
    many = np.log(np.float32(len(opinions)))
    return Opinion(
        np.logaddexp.reduce([o.classes for o in opinions]) - many,
        np.logaddexp.reduce([o.units for o in opinions]) - many,
        opinions[0].hidden,
        opinions[0].units,
    )


def packed(weights: dict[str, NDArray[Any]]) -> dict[str, NDArray[Any]]:
    """The weights for a small file: each row of a matrix in 256 steps of its own, all else in half precision.

    >>> w = packed({"a.weight": np.array([[1.0, -0.5]])}); [a.dtype.name for a in w.values()]
    ['int8', 'float16']
    >>> np.abs(unpacked(w)["a.weight"] - [[1.0, -0.5]]).max() < 0.005
    np.True_
    """
    out: dict[str, NDArray[Any]] = {}
    for name, value in weights.items():
        if value.ndim < 2:
            out[name] = value.astype(np.float16)
            continue
        over = tuple(range(1, value.ndim))
        step = (np.abs(value).max(axis=over, keepdims=True) / 127 + 1e-7).astype(np.float16)
        out[name] = np.clip(np.round(value / step.astype(np.float32)), -127, 127).astype(np.int8)
        out[f"{name}.step"] = step
    return out


def unpacked(weights: dict[str, NDArray[Any]]) -> dict[str, NDArray[Any]]:
    """What `packed` made, as numbers to reckon with."""
    return {
        name: value.astype(np.float32) * weights[f"{name}.step"].astype(np.float32)
        if value.dtype == np.int8
        else value
        for name, value in weights.items()
        if not name.endswith(".step")
    }


def _run(w: dict[str, Floats], embeddings: Floats) -> Opinion:
    h = _gelu(_norm(_linear((embeddings - w["mean"]) / w["deviation"], w, "enter"), w, "norm"))
    for conv, norm in (("conv1", "norm1"), ("conv2", "norm2")):
        h = h + _gelu(_norm(_conv3(h, w, conv), w, norm))
    attention = _softmax(_linear(h, w, "look"))
    pooled = (attention.T @ h).reshape(-1)
    return Opinion(_log_softmax(_linear(pooled, w, "choose")), _log_softmax(_linear(h, w, "spell")), h)


def product(a: Floats, b: Floats) -> Floats:
    """The product of two matrices, in pieces so small that one thread does each: threads that wait for each other make
    it a hundred times slower on a machine with other work.

    >>> a, b = np.ones((7, 400), np.float32), np.ones((400, 500), np.float32)
    >>> bool((product(a, b) == a @ b).all())
    True
    """
    rows = max(1, ONE_THREAD // max(1, b.shape[0] * b.shape[1]))
    if rows >= len(a):
        whole: Floats = a @ b
        return whole
    return np.concatenate([a[i : i + rows] @ b for i in range(0, len(a), rows)])


def _linear(x: Floats, w: dict[str, Floats], name: str) -> Floats:
    weight = w[f"{name}.weight"].T
    out: Floats = (product(x, weight) if x.ndim == 2 else x @ weight) + w[f"{name}.bias"]
    return out


def _conv3(x: Floats, w: dict[str, Floats], name: str) -> Floats:
    side = np.zeros_like(x[:1])
    before, after = np.concatenate([side, x[:-1]]), np.concatenate([x[1:], side])
    taps = w[f"{name}.taps"]
    out: Floats = product(before, taps[0]) + product(x, taps[1]) + product(after, taps[2]) + w[f"{name}.bias"]
    return out


def _norm(x: Floats, w: dict[str, Floats], name: str) -> Floats:
    centred = x - x.mean(-1, keepdims=True)
    out: Floats = (
        centred / np.sqrt((centred**2).mean(-1, keepdims=True) + 1e-5) * w[f"{name}.weight"]
        + w[f"{name}.bias"]
    )
    return out


def _gelu(x: Floats) -> Floats:
    # the error function by Abramowitz and Stegun 7.1.26, within 1.5e-7, so that scipy is not needed
    z = np.abs(x) / np.sqrt(2)
    t = 1 / (1 + 0.3275911 * z)
    tail = (
        t
        * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
        * np.exp(-z * z)
    )
    out: Floats = (0.5 * x * (1 + np.sign(x) * (1 - tail))).astype(np.float32)
    return out


def _softmax(x: Floats) -> Floats:
    e = np.exp(x - x.max(0, keepdims=True))
    out: Floats = e / e.sum(0, keepdims=True)
    return out


def _log_softmax(x: Floats) -> Floats:
    top = x.max(-1, keepdims=True)
    out: Floats = x - top - np.log(np.exp(x - top).sum(-1, keepdims=True))
    return out
