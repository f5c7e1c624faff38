"""How the trade is told to a maker: in whose terms, parts by their names, stitches in hook movements."""
