"""A row worked, item by item, onto the row below."""
