"""The sums a pattern leaves to the maker: even spacing, edgings, gauge, yarn, time. Figures come in, figures and
sentences go out."""
