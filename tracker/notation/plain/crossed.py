"""The table of wordings goes on: stitches that cross, openings worked shut, mesh over mesh, chains that turn."""

SAID = """
flatten|fold|press [flat] ,|and|& working|work through both layers|sides :|, > working through both layers ,
flatten|fold|press the rnd|round|piece|tube ,|and|& working|work through both layers|sides :|, > through both layers ,
flatten|fold|press [flat] ,|and|& $plain across through both layers|sides [to] [close] : > working through both layers ,
working through both layers|thicknesses|sides : > working through both layers ,
crossed|cross $tall|pair over [the] next # sts|stitches|$plains ( sk|skip|miss > ( skip
crossed|cross st|stitch over [the] next # sts|stitches|$plains ( sk|skip|miss > ( skip
# crossed|cross $tall|pair|st|stitch over [the] next # sts|stitches|$plains ( sk|skip|miss > ( skip
x - st|stitch over [the] next # sts|stitches|$plains ( sk|skip|miss > ( skip
crossed|cross $tall over [the] next 2 sts|stitches|$plains ,|; > skip next st , $tall in next st , $tall in skipped st ,
$tall in|into [the] skipped|missed ,|; > $tall in skipped st ,
ch 1 ,|and sk|skip|miss 1|one over|at|above each ch - 1 sp|space > ch 1 over each ch - 1 sp
ch 1 ,|and sk|skip|miss [the|next] ch - 1 sp over|at|above each ch - 1 sp|space > ch 1 over each ch - 1 sp
( ch 1 , sk|skip|miss [next] ch - 1 sp ) over|at|above each sp|space > ch 1 over each ch - 1 sp
t - ch # > ch #
tch|t-ch # > ch #
turning ch # > ch #
sk|skip|miss # [ch|chs] of [the] turning|beg ch - # ,|and $tall in|into [the] $nth ch > $tall in $nth ch of turning ch
sk|skip|miss # [ch|chs] of [the] turning|beg ch ,|and $tall in|into [the] $nth ch > $tall in $nth ch of turning ch
sk|skip|miss 2 [ch|chs] of [the] tch ,|and $tall in|into [the] next ch [of] [tch] > $tall in 3rd ch of turning ch
$tall in each st around|round|across , inc|increasing in every > $tall in each st around , working 2 $tall in every
$tall in|into each st|stitch to end , inc|increasing in|into every > $tall in each st to end , working 2 $tall in every
$tall around|round|across , inc|increasing in|into every > $tall in each st around , working 2 $tall in every
"""
"""As in `wordings.py`."""
