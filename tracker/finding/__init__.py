"""Joins what rowteller knows (the fabric) to what lies in the maker's lap: lost places and miscounts."""
