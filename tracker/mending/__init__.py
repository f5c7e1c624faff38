"""One edit after which the whole pattern agrees, and the text with it."""

from tracker.mending.mend import Mend, mend, offered
from tracker.mending.text import mended, write_new

__all__ = ["Mend", "mend", "mended", "offered", "write_new"]
