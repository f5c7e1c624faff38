"""The program of a piece: what the hands do, one group after another, and the places between."""
