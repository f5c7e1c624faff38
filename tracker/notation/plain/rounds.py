"""THE TABLE of designers' own words for what is worked in rounds: rings, picots, petals, chains between stitches.

Read as the table in `wordings.py` is, before it.
"""

SAID = """
$ringing [up] [it|this|them|ends] in|into|to|as a ring|circle|loop > join to form a ring
$ringing [up] the ch|chain|ends [together] in|into|to a ring|circle|loop > join to form a ring
$sl $st across|along|over|up|through # $chs to [the] $amid of [the] [first|next|this|same] $spot > sl st in next # ch
$sl $st across|along|over|up|through # $chs > sl st in next # ch
ss|slst across|along|over|up|through # $chs to [the] $amid of [the] [first|next|this|same] $spot > sl st in next # ch
ss|slst across|along|over|up|through # $chs > sl st in next # ch
# $sl $sts along|over|up [the|next] $chs to [the] $amid of [the] [first|next|this|same] $spot > sl st in next # ch
# $sl $sts across|along|over|up [the|next] $chs > sl st in next # ch
$tall around|round|in|into [the] back|front [of] [the] post|posts of > back|front post $tall around
around|round one|1 st|stitch|$plain > around next st
around|round the one after [that|it|this] > around next st
around|round the following|next one > around next st
in|into the following one > in next st
$flip [the|your] $thing [$over] $so [you] [can] $crochet $onto [the] $foot [$edges] of [the] [$found] $chs > $otherside
going [back] along|across|down [the] $foot [$edges] of [the] [$found] $chs > $otherside
then back along|across|down [the] $foot [$edges] of [the] [$found] $chs > $otherside
hook|sc|hdc|dc|tr ( picot [made|formed] ) > hook|sc|hdc|dc|tr
in|into the $cell with|holding|containing the|your first $plain > in the same $cell as the first st
single in|into > sc in|into
double in|into > double crochet in|into
# doubles ,|;|.|in|into > # double crochets ,|;|.|in|into
two|three|four doubles ,|;|.|in|into > two|three|four double crochets ,|;|.|in|into
two|three|four singles ,|;|.|in|into > two|three|four sc ,|;|.|in|into
center|centre|middle of [the] 1st > center|centre|middle of first
in|into the [center] ring|circle between > between
for|forming|making|completing|to [make|form|create|complete] [a|the|one] picot ,|;|.|)|] > ,|;|.|)|]
st|stitch|ss|slst in|into|to [the] top of [the] last|previous $plain > st|stitch|ss|slst in last $plain
in|into|to [the] first|1st of these|those|the # ch|chs|chain|chains > in first ch
$nth|$mid $plain of each|every # $plain > $nth|$mid $plain of each|every group
in|into|to|at [the] base|foot of [the] $nth|$mid $plain > around the $nth|$mid $plain
$tall in|into each|every [of] [the] underarm $cell and|& in|into > $tall evenly along the edge , $tall in
$tall in|into each|every [of] [the] underarm $cell > $tall evenly along the edge
separated by [a|one] ch|chain [-] # [sp|space|loop|lp] > with ch # between
separated by # ch|chain|chs > with ch # between
with [a|one] ch|chain [-] # sp|space|loop|lp between > with ch # between
with [a|one] # [-] ch|chain sp|space|loop|lp between > with ch # between
"""
