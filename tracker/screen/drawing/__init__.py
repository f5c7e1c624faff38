"""Text, big letters and fabric as runs of characters in roles: what a page is put together from."""
