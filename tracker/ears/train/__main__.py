"""`python -m tracker.ears.train WORK`: makes the recordings, trains the head, says how well voices not
trained on are heard.

In: a working folder (what is already made there is used again); optionally a folder with real speech (see
features.real_recordings). Out: tracker/ears/hearing/head_en.npz, and with --folds a table in which each
family of voices is heard by a head that never met it. Needs torch; the voices are
pip's and Debian's (see voices.py). Minutes on two cores.
"""

from __future__ import annotations

import argparse
import os
import pickle
from multiprocessing import Pool
from pathlib import Path

import numpy as np

from tracker.ears.hearing.embed import Embedder
from tracker.ears.hearing.head import WEIGHTS
from tracker.ears.train import augment, features, say, voices
from tracker.ears.train.features import Example

COPIES = ((False, 1), (True, 2), (True, 3))
"""Noisy or not, and the seed, of each copy of a clip."""
HEADS = ((1, 0.7), (2, 2.0))
"""Seed, and weight of the spelling, of each head; their opinions are averaged. The second knows numbers better."""
EPOCHS = 8
WEIGHTS_OF = {"espeak": 0.8, "flite": 1.2, "piper": 1.5, "kokoro": 2.0, "kokoro mixed": 2.0, "real": 1.5}
"""So that the family with the most recordings is not all that is learnt."""


class _Worker:
    embedder: Embedder
    beds: augment.Beds


def _begin(folder: Path, noise: Path | None) -> None:
    os.nice(5)
    _Worker.embedder = Embedder()
    families = [f for f in ("flite", "espeak") if (folder / f"{f}.npz").exists()]
    talkers = [clip[0] for f in families for clip in say.load(f, folder)[:600]]
    files = [voices.read_wav(noise.read_bytes())] if noise else []
    _Worker.beds = augment.make_beds(np.random.default_rng(0), talkers, files)


def _work(job: tuple[tuple[np.ndarray, str, str, str], str, bool, int]) -> list[Example]:
    clip, family, noisy, seed = job
    return features.from_clip(clip, family, _Worker.beds, _Worker.embedder, noisy, seed)


def _work_real(job: tuple[Path, str]) -> list[Example]:
    return features.from_real(*job, _Worker.embedder)


def synthetic_examples(family: str, folder: Path, noise: Path | None) -> list[Example]:
    """Made once and kept in the folder."""
    kept = folder / f"{family}.examples"
    if not kept.exists():
        jobs = [(clip, family, noisy, seed) for clip in say.load(family, folder) for noisy, seed in COPIES]
        with Pool(2, _begin, (folder, noise)) as pool:
            found = [e for examples in pool.imap(_work, jobs, 64) for e in examples]
        kept.write_bytes(pickle.dumps(found))
    examples: list[Example] = pickle.loads(kept.read_bytes())
    return examples


def real_examples(folder: Path, recordings: Path, keep_apart: Path | None) -> list[Example]:
    kept = folder / "real.examples"
    if not kept.exists():
        with Pool(2, _begin, (folder, None)) as pool:
            found = [
                e
                for examples in pool.imap(_work_real, features.real_recordings(recordings, keep_apart), 16)
                for e in examples
            ]
        kept.write_bytes(pickle.dumps(found))
    examples: list[Example] = pickle.loads(kept.read_bytes())
    return examples


def weight_of(example: Example) -> float:
    return WEIGHTS_OF.get(example.voice.split("/")[0], 1.0)


def main(arguments: list[str] | None = None) -> None:
    parser = argparse.ArgumentParser(prog="python -m tracker.ears.train", description=__doc__)
    parser.add_argument("work", type=Path, help="a folder for recordings and embeddings, some 3 GB")
    parser.add_argument(
        "--real", type=Path, metavar="FOLDER", help="open recordings of real speech, to learn rejection from"
    )
    parser.add_argument(
        "--keep-apart", type=Path, metavar="FOLDER", help="recordings to be measured with: never trained on"
    )
    parser.add_argument("--noise", type=Path, metavar="WAV", help="a real noise to add to the made ones")
    parser.add_argument(
        "--folds",
        action="store_true",
        help="instead of shipping a head, measure heads on voices they never met",
    )
    parser.add_argument("--out", type=Path, default=WEIGHTS)
    o = parser.parse_args(arguments)
    try:
        from tracker.ears.train import learn, report
    except ImportError:
        raise SystemExit("Training needs torch, which is not installed: pip install torch.") from None
    by_family: dict[str, list[Example]] = {}
    for family in voices.FAMILIES:
        if not (o.work / f"{family}.npz").exists():
            print(f"{family}: {say.make(family, o.work)} clips made", flush=True)
        if (o.work / f"{family}.npz").exists():
            by_family[family] = synthetic_examples(family, o.work, o.noise)
            print(f"{family}: {len(by_family[family])} examples", flush=True)
        else:
            print(f"{family}: not installed, left out", flush=True)
    people = real_examples(o.work, o.real, o.keep_apart) if o.real else []
    if o.folds:
        report.folds(by_family, people, weight_of, o.work)
        return
    examples = [e for found in (*by_family.values(), people) for e in found if len(e.embeddings) > 1]
    heads = [learn.train(examples, weight_of, EPOCHS, seed, spelling) for seed, spelling in HEADS]
    learn.save(heads, examples, o.out)
    print(f"{o.out}: {o.out.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main()
