"""The table of wordings goes on: stitches that cross, openings worked shut, mesh over mesh, chains that turn, ends."""

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
# $tall in|into $outermost st|sts|$plain $then $between > # $tall in first st , $inner st , # $tall in last st
$drawn at|on [both] [the] beg|beginning|start and|& [at] [the] end $then $between > $drawn , $inner 2 sts , $drawn
$drawn at each|both end|ends $then $between > $drawn , $inner 2 sts , $drawn
at|on [both] [the] beg|beginning|start and|& [at] [the] end > at each end
in|into [all] [the] rest of [the|these|those] $plains > in each rem st
$tall for [all] [the] rest of [the|this] row|rnd|round > $tall in each rem st
$tall [all] the rest of [the|this] row|rnd|round > $tall in each rem st
$tall the rest of the way across|around|along > $tall in each rem st
$tall to finish|complete [off] the|this row|rnd|round > $tall in each rem st
in|into what|whatever is|remains [left] ,|;|. > in each rem st ,|;|.
in|into what's|whatever's|those left|remaining > in each rem st
in|into the other # $plains > in the rem # sts
that|the ch|chain [-] [#] counts|stands as|for > this ch counts as
this counts|stands as|for [the] [first] $plain > this ch counts as $plain
[,] in this row|rnd|round and [in] all [the] others|rows|rnds > throughout
here and always > throughout
drop|dropped [-] down $tall [st] in|into > $tall in
dropdown|dropped $tall [st] in|into > $tall in
$tall drop|dropped|dropping [-] down in|into > $tall in
$tall down into > $tall into
spike [st|stitch] in|into the row below|down > spike st into row below
$tall dropdown in|into > $tall in
dec|decrease|inc|increase at|on [the] first and|& last st|sts > dec|decrease|inc|increase at each end
last|final $plain going|landing|falling in|into > last $plain goes in
with your|the last|final $plain going|landing|falling in|into > working last $plain in
, [working|with|in] # rows of|in|with each color|colour|shade [in] [the] [same] [order|sequence] >
sk|skip|miss [the] st|stitch at [the] base ,|;|. > skip first st ,|;|.
each of these|those # $plains > each of the next # $plains
blo|bl|flo|fl of these|those # $plains > blo|bl|flo|fl of the next # $plains
in|into these|those # $plains > in|into the next # $plains
sk|skip|miss [the] base st|stitch > skip first st
across|along|over [the] top|upper [edge] to|until|till [the] last > across to last
"""
"""As in `wordings.py`."""
