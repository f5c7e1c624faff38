"""Real people's speech that is no command, to learn rejection from. Open data, fetched by whoever trains; none of it is kept here.

In: a folder with clones of Picovoice/speech-to-intent-benchmark (Apache-2.0, data/speech) and MycroftAI/Precise-Community-Data
(only the recordings that its licences/*.txt name as public domain). Out: their paths. Recordings that something is measured
with are left out by the first eight letters of their names.
"""

from __future__ import annotations

import re
from pathlib import Path

ID = re.compile(r"[0-9a-f]{8}")


def real_recordings(folder: Path, keep_apart: Path | None) -> list[tuple[Path, str]]:
    """Paths and their source's name, in a fixed order."""
    apart = {m.group() for f in keep_apart.rglob("*.wav") if (m := ID.search(f.name))} if keep_apart else set()
    free = {line.strip().split("/")[-1] for f in folder.rglob("license*.txt") for line in f.read_text(errors="replace").splitlines()}
    found = []
    for path in sorted(folder.rglob("*.wav")):
        match = ID.search(path.name)
        if match and match.group() in apart:
            continue
        if "speech/clean" in str(path):
            found.append((path, "real/orders"))
        elif path.name in free:
            found.append((path, f"real/{path.name.split('-')[0]}"))
    return found
