"""How soon the page on a tablet follows a step: `python tests/tablet/following.py [--times N]`.

Comes in: how often. Goes out: milliseconds from a deed being typed to the page having it on, over the real command
and a real Chromium on this machine; half of them, nineteen in twenty, all. Both read the same clock. Not a
test: timings are printed, never asserted.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "screen"))

from pretend_tablet import browser
from test_tablet_browser import work


def main(times: int) -> None:
    """Measure and print."""
    taken = []
    with (
        tempfile.TemporaryDirectory() as folder,
        browser(Path(folder)) as tablets,
        work(Path(folder)) as made,
    ):
        page = tablets.open(made.link)
        page.until("hand", "Ch 35")
        page.js(
            "window.at = 0; new MutationObserver(() => requestAnimationFrame(() => { window.at = Date.now() }))"
            ".observe(document.getElementById('words'), { childList: true })"
        )
        for turn in range(times):
            page.js("window.at = 0")
            asked = time.time() * 1000
            made.say("next" if turn % 40 < 20 else "back")
            while not (at := float(page.js("window.at"))):
                time.sleep(0.005)
            taken.append(at - asked)
            time.sleep(0.05)
    taken.sort()
    print(
        f"{times} steps, typed to drawn: half within {taken[len(taken) // 2]:.0f} ms, "
        f"nineteen in twenty within {taken[len(taken) * 19 // 20]:.0f} ms, all within {taken[-1]:.0f} ms"
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=200)
    main(parser.parse_args().times)
