"""Who may see the page, and who may touch it. What a browser asks comes in; a reason to refuse, or none, goes out.

Pure. A page of somebody else's that is open in a browser of the same machine or network can send requests
here, too: it can neither know the key, nor hide its Origin, nor make our Host out of its own name (which may
be pointed at this machine).
"""

from hmac import compare_digest

from tracker.records import dataclass


@dataclass(frozen=True, slots=True)
class Asking:
    """One request, as far as it matters here."""

    method: str
    what: str
    """"page", "live" or "do"."""
    key: str
    """The key that came with it; empty for none."""
    host: str | None
    origin: str | None
    site: str | None
    """Sec-Fetch-Site: how the asking page stands to ours, by the browser's own word; None from older ones."""
    into: str | None = None
    """Sec-Fetch-Dest: what the answer is for."""


@dataclass(frozen=True, slots=True)
class Rules:
    """What is let in."""

    key: str
    names: frozenset[str]
    """Names of this machine, lower case, without the port."""
    port: int
    touch: bool
    """True when the page may move the work."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why not."""

    status: int
    sentence: str


def refused(asking: Asking, rules: Rules, reached_at: str) -> Refusal | None:
    """Why this is refused; None when it is let in. `reached_at`: the address of ours that was reached."""
    host = (asking.host or "").lower()
    if not _is_ours(host, rules, reached_at):
        return Refusal(421, "This page is not known by that name.")
    if asking.origin is not None and asking.origin.lower() != f"http://{host}":
        return Refusal(403, "Another page may not ask for this one.")
    if asking.what == "page":
        if asking.into not in (None, "document"):
            return Refusal(403, "This page does not lie inside another.")
    elif asking.site not in (None, "same-origin", "none"):
        return Refusal(403, "Another page may not ask for this one.")
    if not compare_digest(asking.key.encode(), rules.key.encode()):
        return Refusal(403, "The link has a key in it; open it as it stands in the terminal.")
    if asking.what == "do":
        if not rules.touch:
            return Refusal(403, "This page only shows; begin with --touch to move the work from here.")
        if asking.origin is None:
            return Refusal(403, "Only the page itself may move the work.")
    return None


def _is_ours(host: str, rules: Rules, reached_at: str) -> bool:
    name, colon, port = host.rpartition(":")
    if not colon:
        name, port = host, "80"
    # An address can only be reached by asking for it, so the one that was reached is one of ours.
    return port == str(rules.port) and (name in rules.names or name == reached_at.lower())
