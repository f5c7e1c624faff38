"""Any file that a pattern comes in, as text: plain text, Markdown, a saved web page, PDF, DOCX, standard input."""

from tracker.files.letters import Unreadable
from tracker.files.opening import STANDARD_INPUT, text_of

__all__ = ["STANDARD_INPUT", "Unreadable", "text_of"]
