"""Commands on pieces in hand: working one, listing and keeping them, their log, and the demo of it all."""
