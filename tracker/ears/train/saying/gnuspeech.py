"""The voices of GnuSpeech, a throat and mouth reckoned as a tube, by npm's package @echogarden/gnuspeech-wasm.

In: a sentence, one of `VOICES` and a tempo. Out: a WAV's bytes, or None when node or the package is not there. One
node process is kept for all sentences.
"""

from __future__ import annotations

import base64
import functools
import json
import os
import shutil
import subprocess
from pathlib import Path

VOICES = ("male", "female", "large_child", "small_child")
PACKAGE = "@echogarden/gnuspeech-wasm"
_PROGRAM = """
import { createInterface } from 'readline'
const { synthesize } = await import(process.argv[1])
for await (const line of createInterface({ input: process.stdin })) {
  const { text, voice, tempo } = JSON.parse(line)
  let out = ''
  try { out = Buffer.from((await synthesize(text, { voice, tempo })).audioData).toString('base64') } catch {}
  process.stdout.write(out + '\\n')
}
"""


def node_package(name: str) -> Path | None:
    """Where npm put a package: in NODE_PATH, or in node_modules here."""
    places = [*os.environ.get("NODE_PATH", "").split(os.pathsep), "node_modules"]
    return next((Path(p).resolve() / name for p in places if p and (Path(p) / name).is_dir()), None)


@functools.cache
def _process(_of_process: int) -> subprocess.Popen[str] | None:
    folder = node_package(PACKAGE)
    if folder is None or not shutil.which("node"):
        return None
    entry = (folder / "dist" / "exports" / "GnuSpeech.js").as_uri()
    return subprocess.Popen(
        ["node", "--input-type=module", "-e", _PROGRAM, entry],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
    )  # fmt: skip


def gnuspeech(text: str, voice: str, tempo: float) -> bytes | None:
    process = _process(os.getpid())
    if process is None or process.stdin is None or process.stdout is None:
        return None
    words = "".join(c if c.isalnum() or c == "'" else " " for c in text)
    try:
        process.stdin.write(json.dumps({"text": words, "voice": voice, "tempo": tempo}) + "\n")
        process.stdin.flush()
    except BrokenPipeError:
        return None
    return base64.b64decode(process.stdout.readline()) or None
