"""Fetches a vosk model for the ear, with the maker's consent: size told first, resumed where it broke off,
checked, unpacked.

Comes in: the address of a model's zip, a folder, functions to ask and to tell. Goes out: the model's
folder. Every fault is NotFetched, one sentence. What was fetched is kept beside its place as NAME.part, so
that the next try goes on from there; nothing is unpacked that its checksum, or the zip's own, says is
broken.
"""

import hashlib
import json
import shutil
import urllib.error
import urllib.request
import zipfile
from collections.abc import Callable
from http.client import HTTPException
from pathlib import Path, PurePosixPath
from typing import IO, Any
from urllib.parse import urlsplit

from tracker.records import dataclass

MODEL = "https://alphacephei.com/vosk/models/vosk-model-small-en-us-0.15.zip"
"""The small English model that vosk's own makers publish."""
_LIST = "model-list.json"
"""Their list of models, beside the models, with size and MD5 of each."""
_TIMEOUT_S = 20
_BLOCK = 1 << 16
_LARGEST = 4_000_000_000
"""Bytes; no model is larger."""


class NotFetched(Exception):
    """Why there is no model; the text is a sentence for the maker."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A model that may be fetched."""

    address: str
    name: str
    size: int
    """Bytes; 0 when the server does not say."""
    checksum: str
    """Hexadecimal MD5 or SHA-256, told apart by length; empty when nobody gives one."""


def offer(address: str, checksum: str = "") -> Offer:
    """What is to be had at an address. Raises NotFetched."""
    parts = urlsplit(address)
    name = PurePosixPath(parts.path).name
    if parts.scheme not in ("http", "https") or not parts.hostname or not name.endswith(".zip"):
        raise NotFetched(f"{address} is no address of a model; it begins with https:// and ends with .zip.")
    with _opened(urllib.request.Request(address, method="HEAD")) as answer:
        size = int(answer.headers.get("Content-Length") or 0)
    if size > _LARGEST:
        raise NotFetched(
            f"{name} is {size / 1e9:.1f} GB, larger than any model for this; the address may be wrong."
        )
    return Offer(
        address,
        name.removesuffix(".zip"),
        size,
        checksum.lower() or _published(address, name.removesuffix(".zip")),
    )


def fetch(
    wanted: Offer, folder: Path, progress: Callable[[int, int], None] = lambda done, size: None
) -> Path:
    """Fetch, check and unpack; gives the model's folder. `progress` is told bytes done and in all.

    Raises NotFetched.
    """
    place = folder / wanted.name
    if (place / "conf").is_dir() or (place / "am").is_dir():
        return place
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if wanted.size and shutil.disk_usage(folder).free < 3 * wanted.size:
            raise NotFetched(
                f"There is too little room in {folder}: {3 * wanted.size // 1_000_000} MB are needed."
            )
        part = folder / f"{wanted.name}.zip.part"
        _bring(wanted, part, progress)
        _check(wanted, part)
        _unpack(part, place)
        part.unlink()
    except OSError as error:
        raise NotFetched(f"{folder} cannot be written ({error.strerror or error}).") from None
    return place


def _bring(wanted: Offer, part: Path, progress: Callable[[int, int], None]) -> None:
    """Append what is missing."""
    there = part.stat().st_size if part.exists() else 0
    if wanted.size and there >= wanted.size:
        return
    request = urllib.request.Request(wanted.address, headers={"Range": f"bytes={there}-"} if there else {})
    with _opened(request) as answer, part.open("ab" if answer.status == 206 else "wb") as out:
        done = there if answer.status == 206 else 0
        while True:
            try:
                block = answer.read(_BLOCK)
            except (OSError, HTTPException) as broken:
                raise NotFetched(
                    f"The connection broke off after {done // 1_000_000} MB ({broken}); "
                    "the same command goes on from there."
                ) from None
            if not block:
                break
            out.write(block)
            done += len(block)
            progress(done, wanted.size)
            if done > _LARGEST:
                raise NotFetched(f"{wanted.address} sends more than any model holds; it was left off.")
    if wanted.size and done < wanted.size:
        raise NotFetched(
            f"The connection broke off after {done // 1_000_000} MB; the same command goes on from there."
        )


def _check(wanted: Offer, part: Path) -> None:
    if not wanted.checksum:
        return
    digest = hashlib.md5(usedforsecurity=False) if len(wanted.checksum) == 32 else hashlib.sha256()
    with part.open("rb") as file:
        while block := file.read(_BLOCK):
            digest.update(block)
    if digest.hexdigest() != wanted.checksum:
        part.unlink()
        raise NotFetched(
            "What arrived is not what was published (its checksum differs); "
            "it was thrown away. Try again, or another address."
        )


def _unpack(part: Path, place: Path) -> None:
    """Into a folder beside, which then takes its place in one move; a member that would land elsewhere stops it."""
    beside = place.with_name(f"{place.name}.unpacking")
    shutil.rmtree(beside, ignore_errors=True)
    try:
        with zipfile.ZipFile(part) as archive:
            if archive.testzip() is not None:
                raise zipfile.BadZipFile("a file in it is broken")
            for member in archive.infolist():
                inside = PurePosixPath(member.filename)
                if inside.is_absolute() or ".." in inside.parts or "\\" in member.filename:
                    raise NotFetched(
                        "The archive holds a file that would land outside its folder; it was not unpacked."
                    )
            if sum(member.file_size for member in archive.infolist()) > _LARGEST:
                raise NotFetched(
                    "The archive would unpack to more than any model holds; it was not unpacked."
                )
            archive.extractall(beside)
    except (zipfile.BadZipFile, EOFError, RuntimeError) as broken:
        part.unlink()
        shutil.rmtree(beside, ignore_errors=True)
        raise NotFetched(
            f"What arrived is no sound archive ({broken}); it was thrown away. Try again, or another address."
        ) from None
    inner = [child for child in beside.iterdir() if (child / "conf").is_dir() or (child / "am").is_dir()]
    if not inner and not ((beside / "conf").is_dir() or (beside / "am").is_dir()):
        shutil.rmtree(beside, ignore_errors=True)
        raise NotFetched("The archive holds no vosk model (a folder with am and conf in it).")
    (inner[0] if inner else beside).replace(place)
    shutil.rmtree(beside, ignore_errors=True)


def _published(address: str, name: str) -> str:
    """The checksum that the model's publishers give in their list; empty when they give none."""
    try:
        with _opened(urllib.request.Request(address.rpartition("/")[0] + "/" + _LIST)) as answer:
            models: Any = json.loads(answer.read(5_000_000))
    except (NotFetched, OSError, ValueError, HTTPException):
        return ""
    if not isinstance(models, list):
        return ""
    found = next(
        (model.get("md5") for model in models if isinstance(model, dict) and model.get("name") == name), ""
    )
    return found.lower() if isinstance(found, str) and len(found) == 32 else ""


def _opened(request: urllib.request.Request) -> Any:
    host = urlsplit(request.full_url).hostname
    try:
        answer: IO[bytes] = urllib.request.urlopen(request, timeout=_TIMEOUT_S)
    except urllib.error.HTTPError as refused:
        raise NotFetched(
            f"{host} does not give {request.full_url} ({refused.code} {refused.reason}); is the address right?"
        ) from None
    except (OSError, HTTPException, ValueError) as error:
        reason = getattr(error, "reason", error)
        raise NotFetched(
            f"{host} cannot be reached ({reason}). You may be offline; the built-in ear needs no model and no network."
        ) from None
    return answer
