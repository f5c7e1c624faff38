"""Trains the head on embeddings. Needs torch (only here, never at work).

In: `Example`s. Out: the weights as numpy arrays by name, which `tracker.ears.hearing.head` runs in plain
numpy. The seed is fixed; on one machine two runs give the same weights but for the order in which threads
add.
"""

from __future__ import annotations

import itertools
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import torch
import torch.nn.functional as nnf
from numpy.typing import NDArray
from torch import nn

from tracker.ears.hearing.head import packed
from tracker.ears.hearing.words import classes, units
from tracker.ears.train import further
from tracker.ears.train.features import MOST_FRAMES, Example

WIDTH = 96
HEADS = 4
NOISE = 0.3
"""Added to the standardised embeddings in training, in standard deviations."""
SHIFT = 0.3
DROP = 0.2
CHANNELS_OFF = 0.1
SMOOTHING = 0.05
FASTEST = 2.5e-3
"""The highest rate of learning, from nothing."""


class Head(nn.Module):  # type: ignore[misc]  # torch is not there when this is checked
    def __init__(self, mean: NDArray[Any], deviation: NDArray[Any], width: int = WIDTH) -> None:
        super().__init__()
        self.register_buffer("mean", torch.tensor(mean, dtype=torch.float32))
        self.register_buffer("deviation", torch.tensor(deviation, dtype=torch.float32))
        self.enter = nn.Linear(96, width)
        self.norm = nn.LayerNorm(width)
        self.conv1 = nn.Conv1d(width, width, 3, padding=1)
        self.conv2 = nn.Conv1d(width, width, 3, padding=1)
        self.norm1 = nn.LayerNorm(width)
        self.norm2 = nn.LayerNorm(width)
        self.spell = nn.Linear(width, len(units()))
        self.look = nn.Linear(width, HEADS)
        self.choose = nn.Linear(width * HEADS, len(classes()))
        self.drop = nn.Dropout(DROP)

    def forward(self, x: torch.Tensor, mask: torch.Tensor) -> tuple[torch.Tensor, torch.Tensor]:
        """x: batch × frames × 96, mask: 1 where there is a frame. Spelling log-probabilities and class
        logits."""
        x = (x - self.mean) / self.deviation
        if self.training:
            x = x + NOISE * torch.randn_like(x)
            # another voice or microphone moves every frame of an utterance alike
            x = x + SHIFT * torch.randn(x.shape[0], 1, x.shape[2])
            x = x * (torch.rand(x.shape[0], 1, x.shape[2]) > CHANNELS_OFF)
        keep = mask[..., None]
        h = nnf.gelu(self.norm(self.enter(x))) * keep
        for conv, norm in ((self.conv1, self.norm1), (self.conv2, self.norm2)):
            h = (h + self.drop(nnf.gelu(norm(_conv3(conv, h))))) * keep
        spelt = nnf.log_softmax(self.spell(self.drop(h)), dim=-1)
        weight = self.look(h).masked_fill(keep == 0, -1e4).softmax(dim=1)
        pooled = torch.einsum("bth,btw->bhw", weight, h).flatten(1)
        return spelt, self.choose(self.drop(pooled))


def _conv3(conv: nn.Conv1d, h: torch.Tensor) -> torch.Tensor:
    """The convolution as one matrix product, which is twice as fast on so few frames."""
    side = torch.zeros_like(h[:, :1])
    padded = torch.cat([side, h, side], dim=1)
    beside = torch.cat([padded[:, k : k + h.shape[1]] for k in range(3)], dim=2)
    kernel = conv.weight.permute(0, 2, 1).reshape(conv.weight.shape[0], -1)
    return nnf.linear(beside, kernel, conv.bias)


def train(
    examples: list[Example],
    weight_of: Callable[[Example], float],
    epochs: int = 8,
    seed: int = 1,
    spelling: float = 0.7,
    width: int = WIDTH,
    start: dict[str, NDArray[Any]] | None = None,
) -> dict[str, NDArray[Any]]:
    """Minutes on one core; prints a line an epoch. `spelling` is the weight of the words beside the classes; `start`
    are weights to go on from."""
    torch.manual_seed(seed)
    rng = np.random.default_rng(seed)
    everything = np.concatenate(
        [e.embeddings[::2].astype(np.float32) for e in examples[:: max(1, len(examples) // 4000)]]
    )
    model = Head(everything.mean(0), everything.std(0) + 1e-3, width)
    if start:
        model.load_state_dict({name: torch.tensor(v.astype(np.float32)) for name, v in start.items()})
    fastest = further.FASTEST if start else FASTEST
    batch_size = 192
    steps = epochs * (len(examples) // batch_size + 1)
    optimizer = torch.optim.AdamW(model.parameters(), lr=fastest, weight_decay=0.02)
    schedule = torch.optim.lr_scheduler.OneCycleLR(optimizer, fastest, total_steps=steps, pct_start=0.1)
    weights = np.array([weight_of(e) for e in examples], np.float32)
    for epoch in range(epochs):
        began, total, right, seen = time.perf_counter(), 0.0, 0, 0
        model.train()
        order = rng.permutation(len(examples))
        # utterances of like length go together, in batches shuffled again
        order = np.concatenate(
            [
                sorted(part, key=lambda i: len(examples[i].embeddings))
                for part in np.array_split(order, max(1, len(order) // 4096))
            ]
        )
        batches = [order[i : i + batch_size] for i in range(0, len(order), batch_size)]
        for i in rng.permutation(len(batches)):
            picked = [examples[j] for j in batches[i]]
            x, mask = pad(picked)
            spelt, chosen = model(x, mask)
            weight = torch.tensor(weights[batches[i]])
            labels = torch.tensor([e.label for e in picked])
            loss = (
                nnf.cross_entropy(chosen, labels, reduction="none", label_smoothing=SMOOTHING) * weight
            ).mean()
            known = [k for k, e in enumerate(picked) if e.spelling is not None and _fits(e)]
            if known:
                target = torch.tensor([u for k in known for u in picked[k].spelling or ()])
                lengths = torch.tensor([len(picked[k].spelling or ()) for k in known])
                frames = mask[known].sum(1).long()
                ctc = nnf.ctc_loss(
                    spelt[known].transpose(0, 1),
                    target,
                    frames,
                    lengths,
                    reduction="none",
                    zero_infinity=True,
                )
                loss = loss + spelling / 3 * ctc.mean()
            optimizer.zero_grad()
            loss.backward()
            nn.utils.clip_grad_norm_(model.parameters(), 2.0)
            optimizer.step()
            schedule.step()
            total += float(loss.detach()) * len(picked)
            right += int((chosen.argmax(1) == labels).sum())
            seen += len(picked)
        took = time.perf_counter() - began
        sys.stdout.write(
            f"  epoch {epoch + 1}: loss {total / seen:.3f}, right {100 * right / seen:.1f} %, {took:.0f} s\n"
        )
        sys.stdout.flush()
    return {name: tensor.detach().numpy() for name, tensor in model.state_dict().items()}


def usual_of(examples: list[Example]) -> NDArray[Any]:
    """The mean embedding of each class, classes × 96."""
    usual = np.zeros((len(classes()), 96), np.float32)
    for label in range(len(usual)):
        mine = [e.embeddings.astype(np.float32).mean(axis=0) for e in examples if e.label == label]
        usual[label] = np.mean(mine, axis=0) if mine else 0
    return usual


def save(heads: list[dict[str, NDArray[Any]]], usual: NDArray[Any], path: Path) -> None:
    """Several heads in one small file, with the usual embedding of each class."""
    weights = {f"{i}.{name}": value for i, head in enumerate(heads) for name, value in head.items()} | {
        "usual": usual
    }
    names = {"spell.names": np.array(units()), "choose.names": np.array(classes())}
    np.savez_compressed(path, allow_pickle=False, **packed(weights), **names)


def _fits(e: Example) -> bool:
    spelling = e.spelling or ()
    repeats = sum(a == b for a, b in itertools.pairwise(spelling))
    return len(spelling) > 0 and len(spelling) + repeats <= len(e.embeddings)


def pad(picked: list[Example]) -> tuple[torch.Tensor, torch.Tensor]:
    longest = min(MOST_FRAMES, max(len(e.embeddings) for e in picked))
    x = np.zeros((len(picked), longest, 96), np.float32)
    mask = np.zeros((len(picked), longest), np.float32)
    for i, e in enumerate(picked):
        x[i, : len(e.embeddings)] = e.embeddings
        mask[i, : len(e.embeddings)] = 1
    return torch.tensor(x), torch.tensor(mask)
