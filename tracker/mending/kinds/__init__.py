"""The kinds of edit: what of a row may be another, each with what it could have been meant to be."""
