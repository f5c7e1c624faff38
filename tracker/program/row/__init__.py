"""One row as it is worked: its groups, its squares of filet, its row ends."""
