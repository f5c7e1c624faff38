"""The text as it is typed and printed, put right before anything else reads it."""
