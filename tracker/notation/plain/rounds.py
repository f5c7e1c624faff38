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
turn|go|move|continue|cont [around|over] to [work|crochet] [on] [the] other|opposite side of [the] [$found] $chs > \
$otherside
turn|go around|over to work|crochet on|along|across [the] back|bottom|underside of [the] [$found] $chs > $otherside
work|working|go|going|come back along|down|across|up [the] other|opposite side [of] [the] [$found] [$chs] ,|: > \
$otherside ,
back along|down|across|up [the] other|opposite side [of] [the] [$found] [$chs] ,|: > $otherside ,
,|;|. [on] [the] other|opposite side [of] [the] [$found] [$chs] : > , $otherside ,
, from [the] second|2nd $chs [from] [the] [hook|hk] : > , starting in 2nd ch from hook ,
going [back] along|across|down [the] $foot [$edges] of [the] [$found] $chs > $otherside
then back along|across|down [the] $foot [$edges] of [the] [$found] $chs > $otherside
hook|sc|hdc|dc|tr ( picot [made|formed] ) > hook|sc|hdc|dc|tr
in|into the $cell with|holding|containing the|your first $plain > in the same $cell as the first st
single in|into > sc in|into
double in|into > double crochet in|into
in|into all other $sts|$tall > in each rem st
yarn in|into|to a|any|one|the|first [first] free|unused|unworked loop|lp of rnd|round # > \
yarn in any unused loop of rnd #
all|in|with $hue from here|now [on] ,|: > with $hue ,
continue|cont|now in|with $hue [only] : > with $hue ,
$hue only : > with $hue ,
$tall the [$first] $limb on : > join the $limb :
yarn in|into|to|at a|any|one|the [first] front|back loop|lp of rnd|round # > yarn in any unused front|back loop of rnd #
$tall across through both layers|sides|thicknesses > $tall through both layers across
$tall [the] top|opening|end closed|shut through both layers|sides > $tall through both layers across
work|crochet across with # $tall through > # $tall through
work|crochet # sts|stitches together|tog > work next # sts together
$tall [the] next 2 $plains together|tog # times > $tall 2 sts together # times
$tall [the] next 2 $plains together|tog around|across > $tall 2 sts together around|across
$tall through both in|into each|every st around > $tall in each st around
ch|chain # ,|and|.|; [turn] [,] #|of $tall back [along|down|on] [the] [chain|ch] > \
ch # , starting in 2nd ch from hook , #|of $tall
ch|chain # ,|and|.|; [turn] [,] #|of $sl $st back [along|down|on] [the] [chain|ch] > \
ch # , starting in 2nd ch from hook , #|of sl st
ch|chain # ,|and|.|; $tall back along|down|on the chain|ch > ch # , $tall in 2nd ch from hook and in each ch across
ch|chain # ,|and|.|; $sl $st back along|down|on the chain|ch > ch # , sl st in 2nd ch from hook and in each ch across
$sl $st in|into|across next $plain and|& [in|into] first > $sl $st in next st and in next
$sl $st in|into|across next # $plains and|& [in|into] first > $sl $st in next # sts and in next
ss|slst in|into|across next $plain and|& [in|into] first > ss in next st and in next
ss|slst in|into|across next # $plains and|& [in|into] first > ss in next # sts and in next
but do not|don't|dont fasten|cut|break|finish|bind > ; do not fasten|cut|break|finish|bind
but keep|leave|leaving [the] yarn attached > ; do not fasten off
$tall around|round|across , dec|decreasing [over|at] every > dec over every
$tall in|into each st|stitch around|round|across , dec|decreasing [over|at] every > dec over every
$tall around|round|across , working|crocheting every 2nd|$nth and|& > $tall every 2nd|$nth and
$tall in|into each st|stitch around|round|across , working|crocheting every 2nd|$nth and|& > $tall every 2nd|$nth and
work every 2nd|$nth and|& > crochet every 2nd|$nth and
# $tall in|into each|every st|stitch|$tall , but # $tall in|into every > \
# $tall in each st around , working # $tall in every
$tall in|into each|every st|stitch [,] but inc|increase [in|into] every > \
$tall in each st around , working 2 $tall in every
of the # $chs at|along [the] base|bottom|underarm [of] [the] [thumb|gusset|hole|opening|leg] > of the # ch
in|into the # $chs at|along [the] base|bottom|underarm [of] [the] [thumb|gusset|hole|opening|leg] > in each of the # ch
$sl $st row|rnd # to row|rnd # > $sl $st the last row to the foundation
$sl $st row|rnd # to [the] foundation|starting|beginning|first > $sl $st the last row to the foundation
ss|slst row|rnd # to row|rnd # > ss the last row to the foundation
ss|slst row|rnd # to [the] foundation|starting|beginning|first > ss the last row to the foundation
$sl $st [the] first and|& last rows|row [together|tog] > $sl $st the ends together
$sl $st [the] last and|& first rows|row [together|tog] > $sl $st the ends together
ss|slst [the] first and|& last rows|row [together|tog] > ss the ends together
in|into all [the] others > in the others
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
in|into [the] # skipped|missed|unworked $sts and|& [in|into] [the] #|of $chs > \
in each of # skipped sts and in each of #|of ch
,|; [then|and] add|make|plus [ch|chain] # [more] [ch|chain|chs] for|as|to [the|a] turning [ch|chain] > , ch #
( add|plus # [more] [ch|chain|chs] for [the] turning [ch|chain] ) > , ch #
ch|chain # [more] for [the] turning ch|chain > ch #
ch|chain # more for|to turning|turn > ch #
a|one # [-] $tall group|grp in|into|between > # $tall in|into|between
( # - $tall group|grp , ch|chain > ( # $tall , ch|chain
, # - $tall group|grp ) > , # $tall )
group|grp of # $tall in|into|between > # $tall in|into|between
a|one group|grp of # $tall in|into|between > # $tall in|into|between
# - $tall group|grp in|into|between > # $tall in|into|between
# $tall group|grp in|into|between > # $tall in|into|between
# ch|chain joined in|into|to a ring|circle > # ch , join to form a ring
sk|skip|miss the space|width of # $tall > sk|skip|miss # $tall
in|into [the] top|tops of each|every > in|into each|every
and|& [the] top|tops of each|every > and|& each|every
begin|start [off] by making|forming a|an magic|adjustable ring|circle|loop and > make a magic ring ,
begin|start [off] by making|forming a|an magic|adjustable ring|circle|loop > make a magic ring
ending|ends|finishing in|at|on the joining $sl $st > ending with sl st in first st
the last $sl $st going|goes|worked|made in|into the first|joining $plain > ending with sl st in first st
at|from|in|into [the] back [of] [the] [work|piece|flower] between > between
begin|start [off] by chaining # > ch #
and joining in|into|to [a] ring|circle with a slip stitch > , join to form a ring
$tall down in|into|between > $tall in|into|between
separated by [a|one] ch|chain [-] # [sp|space|loop|lp] > with ch # between
separated by # ch|chain|chs > with ch # between
with [a|one] ch|chain [-] # sp|space|loop|lp between > with ch # between
with [a|one] # [-] ch|chain sp|space|loop|lp between > with ch # between
"""
