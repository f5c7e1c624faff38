"""The least a Textual app can be, to compare with: one widget, one key that changes what it shows."""

from textual import events
from textual.app import App, ComposeResult
from textual.widgets import Static


class Bare(App[None]):
    """Counts keys."""

    ENABLE_COMMAND_PALETTE = False
    keys_seen = 0

    def compose(self) -> ComposeResult:
        """One line."""
        yield Static("ready")

    def on_key(self, event: events.Key) -> None:
        """Show one more, or end."""
        if event.key == "q":
            self.exit()
        self.keys_seen += 1
        self.query_one(Static).update(f"ready {self.keys_seen}")


if __name__ == "__main__":
    Bare().run()
