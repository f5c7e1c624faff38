"""The voice that is always there: espeak-ng, from the `espeakng-loader` wheel or from the system.

Comes in: a sentence and a manner. Goes out: its samples, made in a few milliseconds inside this process.
Promises that the sentence is read as text alone: no mark-up, no phoneme codes. What is missing is one
sentence in a NoVoice.

The library keeps one voice and one speed for the whole process, so every call goes through one lock and
sets what differs.
"""

from __future__ import annotations

import atexit
import ctypes
import ctypes.util
import os
import re
import shutil
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tracker.mouth.port import Manner, NoVoice
from tracker.mouth.sound import Sound, trimmed

ACCENTS = ("en-us", "en-gb", "en-gb-scotland", "en-gb-x-rp", "en-029", "en-us-nyc")
"""English voices of the library; a variant may follow a plus ("en-us+f3")."""

MISSING = "No voice: espeak-ng is not installed; `pip install espeakng-loader` brings it. I go on silently."
NO_DATA = (
    "No voice: espeak-ng doesn't find its data; `pip install --force-reinstall espeakng-loader` mends it. "
    "I go on silently."
)
LONG_NAME = (
    "No voice: the folder rowteller is installed in has too long a name for espeak-ng. I go on silently."
)

_RETRIEVE, _NO_EXIT = 2, 0x8000  # AUDIO_OUTPUT_SYNCHRONOUS; espeakINITIALIZE_DONT_EXIT
_UTF8, _RATE, _VOLUME = 1, 1, 2  # espeakCHARS_UTF8; espeakRATE; espeakVOLUME
_IPA = 2  # espeakPHONEMES_IPA
_LONGEST_FOLDER = (
    140  # the library copies its data folder's name into 160 bytes and says nothing when it doesn't fit
)

_Heard = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p, ctypes.c_int, ctypes.c_void_p)


class _Described(ctypes.Structure):
    """What the library says of a voice: espeak_VOICE of speak_lib.h."""

    _fields_ = (
        ("name", ctypes.c_char_p), ("languages", ctypes.c_char_p), ("identifier", ctypes.c_char_p),
        ("gender", ctypes.c_ubyte), ("age", ctypes.c_ubyte), ("variant", ctypes.c_ubyte), ("xx1", ctypes.c_ubyte),
        ("score", ctypes.c_int), ("spare", ctypes.c_void_p),
    )  # fmt: skip


class Espeak:
    """Espeak-ng in one manner."""

    def __init__(self, manner: Manner) -> None:
        self._manner = manner
        self._library = _library()
        self._library.check(manner.accent)

    def make(self, sentence: str) -> Sound:
        """The sentence as sound; empty when it holds nothing to be said."""
        return trimmed(self._library.made(sentence, self._manner))


def unknown(accent: str) -> str:
    """Why there is no such voice, in a sentence; "" where there is one, or where no espeak-ng can tell."""
    try:
        library = _library()
    except NoVoice:
        return ""
    try:
        library.check(accent)
    except NoVoice as fault:
        return str(fault)
    return ""


def sounded(words: str, accent: str = "en-us") -> str:
    """The words in phonetic letters, as the voice says them. Raises NoVoice.

    >>> sounded("back loop") != sounded("backup")
    True
    """
    return _library().sounded(words, accent)


class _Library:
    """The one copy of espeak-ng in this process."""

    def __init__(self, calls: ctypes.CDLL, data: str | None) -> None:
        self._calls = calls
        self._lock = threading.Lock()
        self._pieces: list[bytes] = []
        self._set: tuple[str, int, int] | None = None
        calls.espeak_Initialize.argtypes = [ctypes.c_int, ctypes.c_int, ctypes.c_char_p, ctypes.c_int]
        calls.espeak_SetVoiceByName.argtypes = [ctypes.c_char_p]
        calls.espeak_SetParameter.argtypes = [ctypes.c_int, ctypes.c_int, ctypes.c_int]
        calls.espeak_Synth.argtypes = [
            ctypes.c_char_p, ctypes.c_size_t, ctypes.c_uint, ctypes.c_int, ctypes.c_uint, ctypes.c_uint,
            ctypes.POINTER(ctypes.c_uint), ctypes.c_void_p,
        ]  # fmt: skip
        calls.espeak_TextToPhonemes.argtypes = [ctypes.POINTER(ctypes.c_void_p), ctypes.c_int, ctypes.c_int]
        calls.espeak_TextToPhonemes.restype = ctypes.c_char_p
        calls.espeak_ListVoices.argtypes = [ctypes.c_void_p]
        calls.espeak_ListVoices.restype = ctypes.POINTER(ctypes.POINTER(_Described))
        self.rate = calls.espeak_Initialize(_RETRIEVE, 0, os.fsencode(data) if data else None, _NO_EXIT)
        if self.rate <= 0:
            raise NoVoice(NO_DATA)
        # Kept as long as the library: it calls it from C, and a collected callback is a crash.
        self._heard = _Heard(self._keep)
        calls.espeak_SetSynthCallback(self._heard)

    def check(self, accent: str) -> None:
        """Raise NoVoice when the library has no such voice, or one that speaks no English."""
        base, plus, variant = accent.partition("+")
        with self._lock:
            self._set = None
            english = base.lower().partition("-")[0] == "en"
            if not english or self._calls.espeak_SetVoiceByName(_as_named(accent)) != 0:
                raise NoVoice(f"No English voice is called “{accent}”; there are {', '.join(ACCENTS)}.")
            # the library takes any word behind the plus, and speaks as if it were not there
            if plus and variant not in (known := self._variants()):
                some = ", ".join(f"+{name}" for name in known[:14])
                raise NoVoice(f"“{accent}” is none: behind the plus there are {some} and others.")

    def _variants(self) -> list[str]:
        """What may follow a plus, f1 to f5 and m1 to m8 first."""
        listed = self._calls.espeak_ListVoices(ctypes.byref(_Described(None, b"variant")))
        names: list[str] = []
        for each in listed:
            if not each:
                break
            names.append((each.contents.identifier or b"").decode("utf-8", "ignore").rpartition("/")[2])
        return sorted(names, key=lambda name: (re.fullmatch(r"[fm]\d", name) is None, name))

    def made(self, sentence: str, manner: Manner) -> Sound:
        text = sentence.replace("\0", " ").encode("utf-8", "ignore")
        wanted = (manner.accent, manner.speed_wpm, manner.volume)
        with self._lock:
            if self._set != wanted:
                self._calls.espeak_SetVoiceByName(_as_named(manner.accent))
                self._calls.espeak_SetParameter(_RATE, max(80, min(450, manner.speed_wpm)), 0)
                self._calls.espeak_SetParameter(_VOLUME, max(0, min(100, manner.volume)), 0)
                self._set = wanted
            self._pieces = []
            self._calls.espeak_SetSynthCallback(self._heard)
            failed = self._calls.espeak_Synth(text, len(text) + 1, 0, 1, 0, _UTF8, None, None)
            pieces, self._pieces = self._pieces, []
        if failed:
            raise NoVoice("The voice failed on a sentence; it goes on with the next.")
        return Sound(b"".join(pieces), self.rate)

    def sounded(self, words: str, accent: str) -> str:
        """The words in phonetic letters."""
        text = ctypes.c_char_p(words.replace("\0", " ").encode("utf-8", "ignore"))
        at = ctypes.c_void_p(ctypes.cast(text, ctypes.c_void_p).value)
        out: list[str] = []
        with self._lock:
            self._set = None
            self._calls.espeak_SetVoiceByName(_as_named(accent))
            while at.value:
                found = self._calls.espeak_TextToPhonemes(ctypes.byref(at), _UTF8, _IPA)
                out.append((found or b"").decode("utf-8", "ignore"))
        return " ".join(out)

    def _keep(self, samples: int | None, count: int, _events: Any) -> int:
        if samples and count > 0:
            self._pieces.append(ctypes.string_at(samples, count * 2))
        return 0


def _as_named(accent: str) -> bytes:
    """The voice as the library calls it: British English is plain "en" there, others have their names."""
    base, plus, variant = accent.partition("+")
    base = base.lower()
    return f"{'en' if base == 'en-gb' else base}{plus}{variant}".encode()


_loaded: _Library | None = None
_loading = threading.Lock()


def _library() -> _Library:
    global _loaded
    with _loading:
        if _loaded is None:
            _loaded = _from_wheel() or _from_system()
        if _loaded is None:
            raise NoVoice(MISSING)
        return _loaded


def _from_wheel() -> _Library | None:
    try:
        import espeakng_loader
    except ImportError:
        return None
    data = Path(espeakng_loader.get_library_path()).parent / "espeak-ng-data"
    return _opened(espeakng_loader.get_library_path(), _short(data) if data.is_dir() else None)


def _from_system() -> _Library | None:
    name = ctypes.util.find_library("espeak-ng")
    return _opened(name, None) if name else None


def _opened(path: str, data: str | None, load: Callable[[str], ctypes.CDLL] = ctypes.CDLL) -> _Library | None:
    try:
        calls = load(path)
    except OSError:
        return None
    return _Library(calls, data)


def _short(folder: Path) -> str:
    """The folder by a name short enough for the library: its own, or a link to it from a temporary folder."""
    if len(os.fsencode(folder)) <= _LONGEST_FOLDER:
        return str(folder)
    beside = tempfile.mkdtemp(prefix="voice-")
    atexit.register(shutil.rmtree, beside, ignore_errors=True)
    link = Path(beside) / "espeak-ng-data"
    try:
        link.symlink_to(folder, target_is_directory=True)
    except OSError as error:
        raise NoVoice(LONG_NAME) from error
    return str(link)
