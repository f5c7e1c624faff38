"""What a row begins with: slip stitches, a fresh start, the turning chain, a cluster that the chain begins."""
