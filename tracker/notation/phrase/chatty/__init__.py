"""How those tell a row who talk to the maker."""
