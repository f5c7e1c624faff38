"""Doubt settled by arithmetic: the ways in which a row's words can be taken, and those that are kept."""
