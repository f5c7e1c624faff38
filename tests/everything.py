"""Installs rowteller with all that its tests need, then runs every test: `python3 tests/everything.py`.

Comes in: words for pytest, if any; `--install` alone installs and stops. Goes out: pytest's exit status.
Needs a Python with its venv module and nothing else. What a test of a device needs (a sound server, a virtual
display, a browser) is brought by the system's package manager where that is allowed, and otherwise named as not run;
with CI=true anything not run is a failure.
"""

import ctypes.util
import hashlib
import os
import re
import shutil
import subprocess
import sys
import sysconfig
import tempfile
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
STAMP = VENV / "installed-for-tests"
# What waits for nothing keeps every processor busy. What lives in real time (sound, a terminal, a browser) mostly waits:
# two of its files run side by side, each with a sound card, a terminal or a display of its own, and the processors do
# the rest in the meantime, giving way to it.
BUSY = ("-m", "not live", "--numprocesses=auto", "--dist=worksteal")
LIVE = ("-m", "live", "--numprocesses=2", "--dist=loadfile", "-o", "cache_dir=.pytest_cache/live")
# Only what lives in real time has another try, alone: on a busy machine it may have waited too long. It is named all the
# same, since it leans on something outside itself. What waits for nothing fails when it fails.
ONCE_MORE = (*LIVE[-2:], "--last-failed", "--last-failed-no-failures=none", "-rA", "--tb=short")
# Many tests start the program: once it is compiled, a start takes a third of the work.
COMPILING = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
IN_CI = os.environ.get("CI", "").lower() == "true"
# Packages that only come as source and need a compiler, and what is not tested without them.
COMPILED = {"evdev": "the pedal as Linux sees it (evdev needs a C compiler and Python's headers)"}


@dataclass(frozen=True, slots=True)
class Device:
    """Something outside Python that some tests stand on."""

    what: str
    """What is not tested without it, as it is printed."""
    is_there: Callable[[], bool]
    packages: tuple[str, ...]
    """Debian's packages that bring it."""


def _finds(*programs: str) -> Callable[[], bool]:
    return lambda: all(shutil.which(program) for program in programs)


def _finds_any(*programs: str) -> Callable[[], bool]:
    return lambda: any(shutil.which(program) for program in programs)


def _plays_through_the_sound_server() -> bool:
    folders = (Path("/usr/lib"), Path("/usr/lib64"))
    plugins = (folder.glob("**/alsa-lib/libasound_module_pcm_pulse.so") for folder in folders)
    return any(True for found in plugins for _ in found)


def _compiles() -> bool:
    headers = Path(sysconfig.get_path("include")) / "Python.h"
    return shutil.which("cc") is not None and headers.exists()


DEVICES = (
    Device(
        "sound in and out (a virtual sound card)",
        lambda: (
            _finds("pulseaudio", "pactl", "parec", "paplay")()
            and ctypes.util.find_library("portaudio") is not None
            and _plays_through_the_sound_server()
        ),
        ("pulseaudio", "pulseaudio-utils", "libasound2-plugins", "libportaudio2"),
    ),
    Device("keys pressed in another window (a virtual display)", _finds("Xvfb"), ("xvfb",)),
    Device(
        "the page for a tablet, in a browser (Chromium)",
        _finds_any("chromium", "chromium-browser", "google-chrome"),
        ("chromium",),
    ),
    Device(COMPILED["evdev"], _compiles, ("gcc", "libc6-dev", "python3-dev")),
)


def main(words: list[str]) -> int:
    """Install, then test; 1 when something failed or, in CI, was not run."""
    if not (3, 11) <= sys.version_info[:2] < (3, 15):
        print(f"This is Python {sys.version.split()[0]}; rowteller runs on 3.11 to 3.14.")
        return 2
    os.chdir(ROOT)
    if sys.platform == "linux":
        bring_devices([device for device in DEVICES if not device.is_there()])
    try:
        left_out = install()
    except subprocess.CalledProcessError as failed:
        print(f"Could not install: {' '.join(map(str, failed.cmd))} ended with status {failed.returncode}.")
        return 2
    if words == ["--install"]:
        return 0
    not_run = left_out if sys.platform != "linux" else [*left_out, *missing_devices(left_out)]
    for what in not_run:
        print(f"not run: {what}")
    with tempfile.TemporaryDirectory() as folder:
        status, skipped = run_these(words, Path(folder)) if words else run_all(Path(folder))
    for what in skipped:
        print(f"not run: {what}")
    if IN_CI and (not_run or skipped):
        print("Something was not run, and this is CI: that counts as a failure.")
        return status or 1
    return status


def run_these(words: Sequence[str], folder: Path) -> tuple[int, list[str]]:
    """Run pytest with these words: its exit status, and what it skipped."""
    report = folder / "report.xml"
    status = subprocess.run(_pytest(words, report), env=COMPILING, check=False).returncode
    return status, skipped_tests(report)


def run_all(folder: Path) -> tuple[int, list[str]]:
    """Run every test: the exit status, and what was skipped. What the busy ones print is shown when they have ended."""
    report, printed = folder / "busy.xml", folder / "busy.txt"
    print(
        "+ what needs the processor alone runs behind what lives in real time, and is shown after it",
        flush=True,
    )
    with printed.open("wb") as out:
        busy = subprocess.Popen(
            [*_giving_way(), *_pytest(BUSY, report)], env=COMPILING, stdout=out, stderr=subprocess.STDOUT
        )
        try:
            failed, skipped = run_these(LIVE, folder)
            status = busy.wait()
        finally:
            busy.kill()  # nothing once it has ended
    sys.stdout.buffer.write(printed.read_bytes())
    sys.stdout.flush()
    if failed == 1:
        print(
            "What failed in real time is run once more, with nothing beside it; what fails again is broken."
        )
        sys.stdout.flush()
        failed = subprocess.run([PYTHON, "-m", "pytest", *ONCE_MORE], env=COMPILING, check=False).returncode
    return failed or status, [*skipped, *skipped_tests(report)]


def _pytest(words: Sequence[str], report: Path) -> list[str | Path]:
    return [PYTHON, "-m", "pytest", f"--junitxml={report}", *words]


def _giving_way() -> list[str]:
    """What makes a command wait for any other; nothing where the system has no word for it."""
    return ["nice", "-n", "10"] if shutil.which("nice") else []


def missing_devices(left_out: list[str]) -> list[str]:
    """What is still not testable after all was tried, leaving out what `left_out` says already."""
    return [device.what for device in DEVICES if not device.is_there() and device.what not in left_out]


def bring_devices(missing: list[Device]) -> None:
    """Ask the system's package manager for what is missing, where this user may do so without being asked."""
    if not missing or shutil.which("apt-get") is None:
        return
    may = [] if os.geteuid() == 0 else ["sudo", "-n"]
    if may and (not shutil.which("sudo") or subprocess.run([*may, "true"], capture_output=True).returncode):
        return
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    keep = ["env", "DEBIAN_FRONTEND=noninteractive"]  # sudo drops the environment
    for words in (
        ["apt-get", "update", "-q"],
        # One at a time, so that one name this system does not have leaves the others standing.
        *(["apt-get", "install", "-qq", "-y", "--no-install-recommends", *each.packages] for each in missing),
    ):
        print("+", *words, flush=True)
        done = subprocess.run(
            [*may, *keep, *words],
            env=quiet,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode:
            print(done.stderr.strip()[-500:])


def install() -> list[str]:
    """Make `.venv`, put the locked packages and rowteller into it; gives what had to be left out."""
    lock = (ROOT / "requirements.lock").read_text(encoding="utf-8")
    project = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    wanted = hashlib.sha256((lock + project + str(_compiles())).encode()).hexdigest()
    if STAMP.exists() and PYTHON.exists() and STAMP.read_text(encoding="utf-8").startswith(wanted):
        return STAMP.read_text(encoding="utf-8").splitlines()[1:]
    if not _venv_works():
        print("+ making .venv", flush=True)
        subprocess.run([sys.executable, "-m", "venv", "--clear", VENV], check=True)
    left_out = []
    for package, what in COMPILED.items():
        if sys.platform == "linux" and not _compiles():
            lock = re.sub(rf"^{package}==.*\n(?:    .*\n)*", "", lock, flags=re.MULTILINE)
            left_out.append(what)
    with tempfile.TemporaryDirectory() as folder:
        pins = Path(folder) / "requirements.txt"
        pins.write_text(lock, encoding="utf-8")
        print("+ installing the locked packages", flush=True)
        _pip("--no-deps", "--require-hashes", "-r", pins)
        print("+ installing rowteller", flush=True)
        _pip("--no-deps", "--editable", ROOT)
    STAMP.write_text("\n".join([wanted, *left_out]), encoding="utf-8")
    return left_out


def _pip(*words: str | Path) -> None:
    command = [PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *words]
    subprocess.run(command, env={**os.environ, "PIP_ROOT_USER_ACTION": "ignore"}, check=True)


def _venv_works() -> bool:
    if not PYTHON.exists():
        return False
    asked = "import sys, pip; sys.exit(not (3, 11) <= sys.version_info[:2] < (3, 15))"
    return subprocess.run([PYTHON, "-c", asked], capture_output=True, check=False).returncode == 0


def skipped_tests(report: Path) -> list[str]:
    """Each skipped test of pytest's report with its reason; skipping is not passing."""
    if not report.exists():
        return []
    cases = ElementTree.parse(report).iter("testcase")
    found = ((case, case.find("skipped")) for case in cases)
    return [
        f"{case.get('classname')}.{case.get('name')}: {skip.get('message')}"
        for case, skip in found
        if skip is not None and skip.get("type") == "pytest.skip"
    ]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
