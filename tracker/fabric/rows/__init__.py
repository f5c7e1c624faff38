"""One printed row, worked onto what stands: how it begins, what leads into it, how it closes."""
