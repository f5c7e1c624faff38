"""A sound card where there is none: a private PulseAudio server with a microphone and a speaker of nothing.

Comes in: nothing. Goes out, from `virtual_sound()`: a SoundCard with the environment a program needs to
find it, and what a test does at the other end of the wire: `say_into_microphone` (what the microphone
hears) and `listening` (what the speaker said). Promises that the server is gone when the block ends, and
one clear RuntimeError when PulseAudio is not installed.

PortAudio looks at the environment once, as it starts. So a test either gives `card.env` to a process of its
own, or uses `lasting_card()`, one card for the whole run, inside `with card.here():` before anything imports
sounddevice.
"""

from __future__ import annotations

import atexit
import os
import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path

RATE = 16_000
"""Samples a second of both ends; 16 bit, one channel."""

_ALSA = "</usr/share/alsa/alsa.conf>\npcm.!default { type pulse }\nctl.!default { type pulse }\n"


@dataclass(frozen=True, slots=True)
class SoundCard:
    """A running virtual sound card."""

    folder: Path
    """Private folder of the server: its socket, its log."""
    env: dict[str, str]
    """The whole environment for a process that shall find this card and no other."""
    server: subprocess.Popen[bytes]
    """The sound server itself; a test may end it to see a speaker go away."""

    def say_into_microphone(self, wav: Path) -> None:
        """Play a WAV file to the microphone and come back when it has been played."""
        subprocess.run(["paplay", "-d", "mic", str(wav)], env=self.env, check=True, timeout=120)

    @contextmanager
    def listening(self) -> Iterator[Recording]:
        """Record the speaker for as long as the block lasts; the samples are in `.pcm` afterwards."""
        kept = self.folder / f"heard-{time.monotonic_ns()}.raw"
        with kept.open("wb") as out:
            recorder = subprocess.Popen(
                ["parec", "-d", "spk.monitor", "--latency-msec=10",
                 f"--rate={RATE}", "--channels=1", "--format=s16le"],
                env=self.env, stdout=out, stderr=subprocess.DEVNULL,
            )  # fmt: skip
            recording = Recording(kept)
            try:
                self._until_hears(kept)
                yield recording
                time.sleep(0.25)  # what is still on its way through the server
            finally:
                recorder.terminate()
                recorder.wait(timeout=10)

    def _until_hears(self, kept: Path) -> None:
        for _ in range(250):
            if kept.stat().st_size > 0:
                return
            time.sleep(0.02)
        raise RuntimeError("The recorder never reached the virtual speaker.")

    def pactl(self, *words: str) -> str:
        """What the server answers to `pactl` with these words."""
        answer = subprocess.run(["pactl", *words], env=self.env, capture_output=True, text=True, timeout=20)
        return answer.stdout

    @contextmanager
    def here(self) -> Iterator[None]:
        """Make this the card of the running process; to be entered before anything imports sounddevice."""
        kept = dict(os.environ)
        os.environ.update({name: self.env[name] for name in _OURS})
        try:
            yield
        finally:
            os.environ.clear()
            os.environ.update(kept)


@dataclass(frozen=True, slots=True)
class Recording:
    """What the speaker said during one `listening` block."""

    path: Path

    @property
    def pcm(self) -> bytes:
        """16 bit little-endian samples, one channel, RATE a second."""
        return self.path.read_bytes()


_OURS = (
    "PULSE_SERVER", "PULSE_SOURCE", "PULSE_SINK", "PULSE_RUNTIME_PATH", "PULSE_STATE_PATH",
    "XDG_RUNTIME_DIR", "ALSA_CONFIG_PATH",
)  # fmt: skip


@contextmanager
def virtual_sound() -> Iterator[SoundCard]:
    """A virtual sound card for as long as the block lasts."""
    missing = [
        tool for tool in ("pulseaudio", "pactl", "pacat", "parec", "paplay") if shutil.which(tool) is None
    ]
    if missing:
        raise RuntimeError(
            f"No {missing[0]}: apt-get install pulseaudio pulseaudio-utils libasound2-plugins libportaudio2"
        )
    folder = Path(tempfile.mkdtemp(prefix="sound-"))
    folder.chmod(0o700)  # the server refuses a runtime folder others can read
    (folder / "asound.conf").write_text(_ALSA)
    place = str(folder)
    env = os.environ | {
        "XDG_RUNTIME_DIR": place,
        "PULSE_RUNTIME_PATH": place,
        "PULSE_STATE_PATH": place,
        "ALSA_CONFIG_PATH": str(folder / "asound.conf"),
        "PULSE_SERVER": f"unix:{place}/native",
        "PULSE_SOURCE": "mic.monitor",
        "PULSE_SINK": "spk",
    }
    null_sink = f"rate={RATE} channels=1 format=s16le"
    with (folder / "log").open("wb") as log:
        server = subprocess.Popen(
            [
                "pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no",
                "--disallow-exit", "--log-target=stderr", "--log-level=notice",
                "-L", f"module-native-protocol-unix auth-anonymous=1 socket={place}/native",
                "-L", f"module-null-sink sink_name=mic {null_sink}",
                "-L", f"module-null-sink sink_name=spk {null_sink}",
            ],
            env=env | {"HOME": place}, stdin=subprocess.DEVNULL, stdout=log, stderr=log,
        )  # fmt: skip
    card = SoundCard(folder, env, server)
    try:
        for _ in range(100):
            if "Server Name" in card.pactl("info"):
                break
            if server.poll() is not None:
                raise RuntimeError(f"The sound server did not start: {(folder / 'log').read_text()}")
            time.sleep(0.05)
        else:
            raise RuntimeError("The sound server did not answer within five seconds.")
        with _running(card, "mic"), _running(card, "spk"):
            yield card
    finally:
        server.terminate()
        try:
            server.wait(timeout=10)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def _running(card: SoundCard, sink: str) -> Iterator[None]:
    """Keep silence flowing into the sink, as into a real card: an idle one stands still for seconds."""
    with Path("/dev/zero").open("rb") as silence:
        flow = subprocess.Popen(
            ["pacat", "-d", sink, "--latency-msec=20", f"--rate={RATE}", "--channels=1", "--format=s16le"],
            env=card.env, stdin=silence, stderr=subprocess.DEVNULL,
        )  # fmt: skip
    try:
        yield
    finally:
        flow.kill()
        flow.wait()


@cache
def lasting_card() -> SoundCard:
    """The one card of this test run: begun with the first call, gone when the run ends."""
    stack = ExitStack()
    atexit.register(stack.close)
    return stack.enter_context(virtual_sound())
