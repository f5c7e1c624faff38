"""THE TABLE of designers' own words, each with what the trade says. Only wordings that can mean one thing are here."""

SAID = """
finish|finishing|end|ending with a row|rnd|round of > ending with a row|rnd|round of
chain stitch|st|stitches|sts|loop from > ch from
chain stitch|stitches|sts > ch
ch stitch|stitches > ch
+ # t - ch|chain > + #
+ # tch|turning [ch|chain|chains] > + #
+ # ch|chain for turning > + #
in|into [the] end sp|space > in|into next sp
gather|collect|dial|crochet a ch|chain of # [sts|stitches|ch|chains] > ch #
gather|collect|dial|crochet # ch|chain|chains > ch #
even|straight|continue|cont in $plain and|& $plain rows [alternately] > even|straight|continue|cont in pattern
even|continue|cont [in|,] alternating|alternate rows of $plain and|& $plain > even|continue|cont in pattern
the row out|through until|till > until
the row out|through > to end
each st|$plain the whole row > each st to end
replaces [the] [first] $plain ) > counts as $plain )
to [the] last st|stitch|$plain ,|; [then] $tall in|into it > to last st ,|; $tall in last st
to [the] last st|stitch|$plain ,|; [then] # $tall in|into it > to last st ,|; # $tall in last st
as far as [the] last st|stitch|$plain ,|; [then] $tall in|into it > to last st ,|; $tall in last st
up to [the] last , > to last st ,
to the last , > to last st ,
to last , > to last st ,
and|& all along > and across
in $plain and|& sp|space|ch all along > in each $plain and sp across
until|till [the] last , > to last st ,
until|till 1 left , # $tall in|into it > to last st , # $tall in last st
until|till # left|remain|remains , > to last # sts ,
# $tall on the ch|chain > # $tall in next ch sp
one more row|rnd|round of $tall > $tall in each st across
# ch|chain for lifting|lift > # ch
ch|chain # for lifting|lift > ch #
the very same = > the same =
the very same . > the same .
last # $plains , $tall in both > last # sts , $tall in each of last # sts
$tall , same as row|rnd # > same as row|rnd #
per row end|ends > in each row end
make|chain|work yourself # ch|chain|chains|chs > ch #
with a row of $tall > with a row of $tall
a row of $tall > $tall in each st across
work|make|crochet a [foundation] row|rnd|round of # > work|make|crochet #
ea . st|sts|sc|dc|hdc|tr|htr|ch > ea st|sts|sc|dc|hdc|tr|htr|ch
ch|chain arc|arcs|bow|bows|arch|arches > ch sp
in|into|at [the] base , > in same st ,
in|into|sk|skip|miss half arch|arc|loop|lp , > in|into|sk|skip|miss next arch|arc|loop|lp ,
# turning|rising|lifting ch|chain|chains|chs > # ch
turning|starting|beginning|beg|foundation - ch|chain > turning|starting|beginning|beg|foundation ch|chain
# ch|chain to turn > # ch , turn
# ch|chain for [the] turn|turning > # ch , turn
# ch|chain to rise > # ch
from|off [the] needle > from the hook
bump from|of [the|your] hook|hk > ch from hook
back|bottom|rear bump from|of [the|your] hook|hk > ch from hook
the back|bottom|rear bump of [the] >
back|bottom|rear bump of [the] >
from * on|onward|onwards repeat|rep > rep from *
from * repeat|rep > rep from *
from * continuously|constantly|always|throughout repeat > rep from *
repeat|rep from * continuously|constantly|always|over > rep from *
repeat|rep constantly|continuously|always from * > rep from *
every|each further > each
, all the way to|across|around|down|along > all the way to|across|around|down|along
keep repeating|rep > rep
rep|repeat bet|betw|btwn > rep between
continue|cont|resume from * > rep from *
continue|cont rep|repeat|repeating from > rep from
go|going|return back to [the] * [and] [rep|repeat] [from|it|this] > rep from *
go|going|return to [the] * and rep|repeat > rep from *
and rep|repeat from|between|the|this|until|till > ; rep from|between|the|this|until|till
and rep|repeat to|across|around|#|twice|once > ; rep to|across|around|#|twice|once
keep on repeating|rep > rep
across|around|along , stopping|stop # $plains short of the end > across|around|along to last # sts
across|around|along , stopping|stop # $plains before the end > across|around|along to last # sts
stopping|stop # $plains short of the end > to last # sts
stopping|stop # $plains before the end > to last # sts
across|around|along , to|until|till [the] last > across|around|along to last
end|ends , $plain [in|into] [each|every] [st|stitch|one] between ,|;|.|( > end|ends , $plain in each st across ,|;|.|(
end|ends , # $plain in|into each|every [st|one|$plain] between ,|;|.|( > end|ends , # $plain in each st across ,|;|.|(
in all but the last # > in each st to last #
patt|pattern row|rnd # times|more|further|(|[ > patt row|rnd # times|more|further|(|[
patt|pattern row|rows|rnd|rnds # > row|rows|rnd|rnds #
duplicate|copy row|rows|rnd|rnds|round|rounds > rep row|rows|rnd|rnds|round|rounds
copy of row|rows|rnd|rnds|round|rounds > rep row|rows|rnd|rnds|round|rounds
drawstring ring|circle|loop > magic ring|circle|loop
in|into that|this [very] spot > in|into same st
in|into the st|stitch|sp|space|loop you just used|worked|made > in|into same st
in|into the st|stitch|sp|space|loop you just worked in|into > in|into same st
the last time [round|around] $omits > $omits
on|in|for the last time [round|around] $omits > $omits
along|across|over the starting|beginning|original|initial|first ch|chain > along the foundation ch
across|along [the] top [edge] of row|rnd|round # > across the top
across|along [the] top [edge] of [the] last row|rnd|round > across the top
but work|working back along the other|opposite side > working along the other|opposite side
in|into the end ch|chain > in last ch
to a|any|one free|unused|unworked back|front loop|lp of rnd|round # > in any unused back|front loop of rnd #
link|hook up with [$one] $slip > join with $slip
link|hook with [$one] $slip > join with $slip
# - ch|chain window|opening|bridge|gap > # - ch sp
ch|chain - # window|opening|bridge > ch - # sp
with # evenly spaced|spread|distributed increases > , increasing # sts evenly
with # evenly spaced|spread|distributed decreases > , decreasing # sts evenly
with # increases evenly [spaced|spread|distributed] > , increasing # sts evenly
with # decreases evenly [spaced|spread|distributed] > , decreasing # sts evenly
to|until the other|far|opposite end > to the end
$tall back across|along > $tall across
your way across|around|along|round > across|around|along|round
$tall all # sts|stitches > $tall in each of # sts
, but work|make|place|put # > , working #
over these|those # > over the next #
ch|chain - # hole|holes > ch - # sp
ch|chain # hole|holes > ch # sp
# - ch hole|holes > # - ch sp
ch|chain hole|holes > ch sp
do not work [in|into|on] [the] next|last|first|rem|remaining|final > leave the next|last|first|rem|remaining|final
don't|dont work [in|into|on] [the] next|last|first|rem|remaining|final > leave the next|last|first|rem|remaining|final
without working [in|into|on] [the] next|last|first|rem|remaining|final > leave the next|last|first|rem|remaining|final
# goes > # times
you'll|we'll|you|we [will] [now] work|make|crochet # > work|make|crochet #
you'll|we'll [now] work|make|crochet in|into > work|make|crochet in|into
head of the|your turning|beg|beginning|starting > top of the turning|beg|beginning|starting
head of turning|beg|beginning|starting > top of turning|beg|beginning|starting
head of the|your tch > top of the tch
work|crochet|go twice in|into each|every|next [$plain] > inc in each|every|next st
work|crochet|go twice in|into the next > inc in the next
go on|continue repeating|rep > rep
what's|everything|whatever between [the] *|asterisks|stars|asterisk's > between *
the part|bit|section|stitches|instructions|directions|steps between [the] *|asterisks|stars > between *
do this|that|so #|twice|across|until|till|to|all|in > rep #|twice|across|until|till|to|all|in
do the same #|twice|across|until|till|to|all|in > rep #|twice|across|until|till|to|all|in
fasten|tie|knot|put|lay on [the] [new] yarn|thread > join yarn
$to this|that and > in same st and
in|into [the] joining|join ,|;|:|. > in same st as joining ,|;|:|.
of any|each|every|next|a # - $plain group|fan|shell > of any|each|every|next|a group|fan|shell
in|into each of [the] others|rest > in each rem st
in|into it|there ,|;|.|(|)|and|then > in same place ,|;|.|(|)|and|then
in|into this|that st|stitch > in same st
in|into that|this [very] last|final|first|same > in the last|final|first|same
in|into the very last|final|first > in the last|final|first
$join|end|finish|complete [off] [up] the|this|each|your rnd|round with|by|using [$making] [$one] $slip > join with $slip
$join|end|finish|complete rnd|round with|by|using [$making] [$one] $slip > join with $slip
$join by|using [$making] [$one] $slip > join with $slip
connect|secure|unite with [$one] $slip > join with $slip
fasten|end|finish with [$one] $sl $st $to [the] first|1st > join with $sl $st $to the first|1st
fasten|end|finish with [$one] ss|slst $to [the] first|1st > join with ss|slst $to the first|1st
join|close the|this|each rnd|round > join rnd|round
$sl $st join > join with $sl $st
$sl $st over|across|along # sts|stitches > $sl $st in next # sts|stitches
ss|slst over|across|along # sts|stitches > ss|slst in next # sts|stitches
ss|slst join > join with ss|slst
close|closing [the|a|into] ring|circle with [a|one] $slip > join to form a ring|circle with $slip
begin|start|commence|beginning|starting|make|form [with] a ch - # ring|circle|loop > ch # , join to form a ring|circle
begin|start|commence|beginning|starting|make|form [with] a # - ch ring|circle|loop > ch # , join to form a ring|circle
beginning|beg|initial|starting ch|chain to form|make > first ch to form
make|form|work|create|with [a|your] ring|circle|loop $made # ch|chain [$sts] > ch # , join to form a ring|circle
mc with # $tall > magic circle with # $tall
# $tall mr > # $tall in mr
# $tall magic ring|circle|loop > # $tall in magic ring|circle|loop
together|tog|along with [the|an] [$part] $limb > with the $limb
[adjustable|sliding|double|amigurumi|slip|yarn|thread|finger] magic ring|circle|loop > magic ring|circle|loop
adjustable|sliding|amigurumi|slip|yarn|thread|finger ring|circle > magic ring|circle
yarn|sliding|adjustable|amigurumi loop > magic loop
magic ring|circle|loop and|, [then] [work] # $tall in|into it > magic ring , # $tall in ring
magic ring|circle|loop and|, [then] [work] # double|single|treble crochet in|into it > magic ring , # \
double|single|treble crochet in ring
magic ring|circle|loop and|, [then] [work] # half double crochet in|into it > magic ring , # half double crochet in ring
magic ring|circle|loop of # > magic ring|circle|loop with #
mr of # > mr with #
form|create [a|an|the] magic|mr > make a magic|mr
ring|circle|loop|mr and [then] work|make|crochet|place # > ring|circle|loop|mr , work #
)|] -|–|—|: # times > )|] # times
)|] a total of # times > )|] # times
make|work|begin|start [with] a|an|one standing|chainless > standing
standing $tall with a|b|c|d|e|f|mc|cc|yarn in > standing $tall in
each $plain along|across|down|up [the|this|each] side to > each $plain to
in|into [the] same sp|lp|loop|space [,] [then] move|go [on] to [the] next sp|lp|loop|space > in sp|lp|loop|space
in|into the $cell that|which [already|also] holds|has the|your first $plain > in the same $cell as the first st
put|place|pop # $tall > # $tall
put|place|pop # half|double|single|treble > # half|double|single|treble
one|1 single ,|;|. > 1 sc ,|;|.
# singles ,|;|.|in|into > # sc ,|;|.|in|into
one|1 increase|decrease > 1 inc|dec
put|place|pop another # $tall > # $tall
put|place|pop another $tall > 1 $tall
you're|you now|then on the other|opposite side > working along the other side
in|into the one after that|it > in|into next st
in|into the one after > in|into next st
in|into this|that corner > in|into same corner
increasing|increase at|in [the|each] corners|corner with|by > working
repeat|rep * . . . * > rep * - *
repeat|rep * … * > rep * - *
# increases > # inc
# decreases > # dec
# - $tall $fan $into > # $tall $into
# $tall $fan $into > # $tall $into
a|one # - $tall $fan $into > # $tall $into
a|one $fan of # $tall $into > # $tall $into
$fan of # $tall $into > # $tall $into
)|] around # times > )|] # times
; from * to * > ; rep from * to *
, from * to * > ; rep from * to *
)|] all the way around|round|across > )|] around|round|across
)|] all [the] around|round|across > )|] around|round|across
) together in|into > ) in|into
) all in|into each|every|next|last|same|first > ) in|into each|every|next|last|same|first
in|into every single $plain > in|into every $plain
per $plain > in each $plain
increase|inc by working|making|crocheting > work
decrease|dec by working|making|crocheting > work
work|make|crochet a|an|one|1 inc|increase|dec|decrease|invdec > inc|increase|dec|decrease|invdec
work|crochet|make [just] one|1|a rnd|round of $tall > $tall in each st around
work|crochet|make [just] one|1|a row of $tall > $tall in each st across
just|simply [work|make] $tall in > $tall in
just|simply [work|make] $sl $st > $sl $st
just|simply [work|make] ss|slst > ss|slst
work|make|crochet [the] next # $tall > # $tall
keep|carry|continue $working [like] [this] [all] [the] [way] around|round|across > rep around|round|across
st|stitch|slst|ss to get|reach to|into > st|stitch|slst|ss to
$sl $st your|the way to|into|over > $sl $st to
$sl $st as needed|necessary|required to > $sl $st to
$sl $st until|till [the] next|first|corner|beg > $sl $st to next|first|corner|beg
$sl $st across|along|over [the] [next] $plain to|into $bound $space > $sl $st in next $plain and in $space
$sl $st across|along|over [the] [next] # $plains to|into $bound $space > $sl $st in next # $plains and in $space
in|to one of the > in|to any
1st ch > first ch
as join|joining|joined work|make # > as joining , work #
each $plain thereafter > each $plain around
each $plain after that > each $plain around
the whole|entire way around|round > around
top ch|chain|$st of > top of
to close|complete|finish|join|end [off] [the|this] rnd|round > to join
# ch|chain at|from [the] beg|beginning|start of [the|this] rnd|round > # ch
ch|chain from [the] beg|beginning|start of [the|this] rnd|round > ch
finish|finishing|complete|conclude [off] [the|this] [row|rnd|round] with|by [$making] > ending with
along|across the last|previous row > across the row
draw|pull up a loop|lp in each of first|next # sc|sts , yo and draw|pull through all 3|4 lps [on] [hook] > sc next # tog
between|bet first|1st and second|2nd > between first 2
in|into between > between
to the very end > to the end
over|across|on each|every #|pair [of] sts|stitches to|across|around > to|across|around
over|across|on each|every #|pair [of] sts|stitches > across
the whole way > to the end
in|into [the] [very] [bottom|lower|end] point|tip [of] [the] [pennant|flag|triangle|shawl|kerchief|bib] > in corner
$drawn before [the] marker|m and|, $drawn after it|marker|m > $drawn , $drawn
$drawn before [the] marker|m and|, $drawn after the marker|m > $drawn , $drawn
$drawn before and [$drawn] after [the] marker|m > $drawn , $drawn
$going [back] in front of these|those|them|it [#] [sts|stitches] [just] [made|worked] > ,
$going [back] behind these|those|them|it [#] [sts|stitches] [just] [made|worked] > ,
$going [back] in front of [the] [#] sts|stitches just made|worked > ,
$going [back] behind [the] [#] sts|stitches just made|worked > ,
$going behind [the] [$which] $petals [,] in [the] [$free] front|back $loops > working in the front|back loops
$going behind [the] petals of rnd|round # [,] in [the] [$free] front|back $loops > working in the front|back loops
$going [back] in front $posts > , $posts
$going [back] behind $posts > , $posts
then in front of these|those|them|it [sts|stitches] [just] [made|worked] > ,
then behind these|those|them|it [sts|stitches] [just] [made|worked] > ,
$under [the] turning - ch|chain $arch > in turning ch sp
$under [the] tch $arch > in turning ch sp
in|into [the] $arch formed|made by|of|with|at [the] turning ch|chain|chains > in turning ch sp
in|into [the] $arch formed|made by|of|with|at [the] tch > in turning ch sp
under [the] turning ch|chain|chains > in turning ch sp
$on [straight|even] in $tall [straight|even] for [a] [further|another] # [$more] $rows [more] > work # $rows in $tall
$on [straight|even] in $tall without shaping for [a] [$more] # [$more] $rows [more] > work # $rows in $tall
front|back loop|lp # rows|rnds|rounds below|down > front|back loop of st # rows below
work|cont|continue on these|those [#] $left [only] for [the] $first $part > leave rem sts unworked
work|cont|continue on these|those [#] $left only > leave rem sts unworked
, and work|cont|continue on these|those [#] $left [only] for [the] $first $part > , leave rem sts unworked
and work|cont|continue on these|those [#] $left [only] for [the] $first $part > , leave rem sts unworked
, working on these|those [#] $left only > , leave rem sts unworked
and work|cont|continue on these|those [#] $left only > , leave rem sts unworked
last|final $plain will|should go|land|be|fall in|into > last $plain goes in
your last|final $plain will|should go|land|be|fall in|into > the last $plain goes in
working|placing|making|putting [your|the] last|final $plain in|into > working last $plain in
in|into the # left behind|unworked|over > in the # unworked sts
in|into the # left .|,|;|—|– > in the # unworked sts .|,|;|—|–
unworked $left of|in|from|on row|rnd|round # > unworked $left
$left [left] unworked in|of|from|on row|rnd|round # > unworked $left
$left left in|from|on row|rnd|round # > unworked $left
# $tall $along [$them] $waiting $left > $tall in each of # unworked $left
# $tall $along [$them] $left $waiting > $tall in each of # unworked $left
# $tall $along [$them] # $waiting $left > $tall in each of # unworked $left
$tall in|into|along [the] $unused loops|lps of [the] ch - # > $tall in each of # free loops of the chain
$tall in|into each [of] [the] $unused $loops of [the] ch - # > $tall in each of # free loops of the chain
of [the] # $unused loops|lps of [the] ch - # > of # free loops of the chain
in|into|along [the] # $unused loops|lps of [the] ch - # > in each of # free loops of the chain
# $tall in|into|along|across [the] underside|back|bottom of [the] ch|chain > # $tall across bottom of ch
in|into [the] underside|bottom of each of [the] # ch|chain|chs|chains > in each of # free loops of the chain
$plain in|into|along|across|on [the] underside|bottom [loops|lps|side|edge] of [each] [of] [the] next # ch|chain|chs > \
working along other side , $plain in next # ch
$plain in|into [each] [of] [the] next # ch|chain|chs|chains along|across|on [the] underside|bottom > \
working along other side , $plain in next # ch
in|into [the] ch|chain where|that [the] first $plain was|is [worked|made] > in same ch as first $plain
$tall worked|made into|in the row|rnd|round before last > $tall in st 2 rows below
at [the] [edge|corner|bottom|base|side] [of] [the] [thumb|arm|leg|neck|underarm|sleeve|ear] opening|slit > at thumbhole
yarn to|in|into|on|around [the] [thumb|arm|leg|neck|underarm|sleeve|ear] opening|slit > yarn at thumbhole
any $tall of rnd|round # that was|is|were skipped|missed|left > any skipped $tall of rnd|round #
rep rnd|rd|round = > rep around =
around|in|into [the] # skipped|missed|left $many > around|in|into each of # skipped $many
and all the way along|across|down > and across
of [the] block|tile|square below|before > of previous block|tile|square
in|into one place|spot > in one st
in|into its ch|center|centre|corner > in ch|center|centre|corner
skip|sk|miss both|these|those [2] $slips > skip 2 slst
skip|sk|miss both|these|those sl|slip sts|stitches > skip 2 slst
in|into|to [the] spine|backbone $spot > in|into|to center $spot
in|into [the] spine|backbone > in center sp
to [the] spine|backbone > to center
until|till [you] reach|reaching|reached [the] spine|backbone > to center
in|into [the] middle|center|centre of [the] next bar > in next bar
$fan|petal of ( > (
$fan of # > #
a $fan of # > #
— # times > , # times
– # times > , # times
sl|ss st across|along|over [the] # $plains > sl st in next # $plains
sl|ss st across|along|over to|into|in|first|next|each|every > sl st to|into|in|first|next|each|every
double crochet ( dc ) > dc
single crochet ( sc ) > sc
half double crochet ( hdc ) > hdc
treble|triple [crochet] ( tr ) > tr
half treble ( htr ) > htr
slip stitch ( sl st ) > sl st
slip stitch ( ss ) > sl st
[,] the last one|$plain in|into > , working last st in
[,] [and] then all the way along|across|down > and across
, then across|along > and across
as far as > to
keep|carry going|on with|repeating|working > rep
set up # > #
# $plains , one|1 in each|every [st|stitch|one|$plain] ,|;|.|(|) > # $plains ,|;|.|(|)
very first|next|last > first|next|last
first make|work > make|work
ch|chain # to turn > ch|chain # , turn
ch|chain # for turning > ch|chain # , turn
ch|chain # for the turn > ch|chain # , turn
t / ch|chain|chains > tch
the # next sts|stitches|sc|dc|hdc|tr|htr|ch > the next # sts|stitches|sc|dc|hdc|tr|htr|ch
subsequent|succeeding > following
front|back - post > front|back post
dc around [the] front of [the] next [dc] , 1|one around [the] back of [the] next > fpdc around next , bpdc around next
double crochet around $before double crochet , one around $behind > fpdc around next , bpdc around next
double crochet around|round [the] front of [the] next|each > fpdc around next|each
double crochet around|round [the] back of [the] next|each > bpdc around next|each
dc around|round [the] front of [the] next|each > fpdc around next|each
dc around|round [the] back of [the] next|each > bpdc around next|each
after that > then
turning - ch|chain|chains > turning ch|chain|chains
each and|& every > each
followed by > ,
pass|passing over # > skip #
pass|passing over [the] next|first > skip next|first
miss|missing|leave|leaving|skip out # > skip #
miss|missing|leave|leaving out [the] next|first > skip next|first
ignore|ignoring [all] [the] next|first|$plains > skip all next|first|$plains
, $pass [over] [all] [the] $plains [in] between [the|each|them|these] [$arches] >
$pass [over] [all] [the] $plains [in] between [the|each|them|these] [$arches] >
behind|for|by|under [the] back|front $strand [of] [the] [$loops|st|stitch] [only] > in back|front loop only
$slip [st] in|into|to $nth ch from [the] hook to|and form|make [a] ring|circle|loop > sl st in first ch to form ring
$slip [st] in|into|to the $nth ch from [the] hook to|and form|make [a] ring|circle|loop > sl st in first ch to form ring
$slip [st] in|into|to $nth ch from [the] hook ( ring made|formed ) > sl st in first ch to form ring
loop|lp from [the] hook|needle > ch from the hook
mount a ch|chain of # > ch #
cast on a ch|chain of # > ch #
mount # > ch #
# first|last|following sts|st|stitches|sc|dc|hdc|tr|htr|ch > first|last|following # sts|st|stitches|sc|dc|hdc|tr|htr|ch
cast on # > ch #
cut|break|snip|sever [off] [the|your] yarn|thread|wool [,] [and|then] fasten|tie|secure|knot [it] [off] > fasten off
snip|sever|trim [the|your] yarn|thread|wool|cotton > cut yarn
secure|end|finish [off] [the|your] yarn|thread|wool|cotton > fasten off
tie|knot|bind|cast off > fasten off
f / o > fasten off
ch|chain 1 ,|and [and] fasten off > fasten off
ch|chain 1 ,|and [and] cut|break|snip [off] [the|your] yarn|thread|wool|cotton > fasten off
turn +|& ch|chain > turn , ch
ch|chain # + turn > ch # , turn
until|till you get|come to > until
until|till there is|are only|just > until there are
one|a single|lone st|stitch > 1 st
in|into [the] back of [the] rnd|round # behind|under|below [the] next|first|last > in the back of next|first|last
in|into the other|opposite|second|far side of [each] [of] [the] [next] # $chs > in other side of next # ch
and so on|forth $until > , rep $until
and so on|forth , $until > , rep around , $until
, [and] $onlike all [the] [way] around|round|across > , rep around|round|across
, [and] $onlike $until > , rep $until
keep|carry|go on to [the] end|start|beginning > rep to the end
until|till [you] are|get|come|reach [back] [at|to] [the] start|beginning > around
until|till you're back at|to [the] start|beginning > around
in|into the loop|lp|sp|space you are|stand in > in same loop|lp|sp|space
in|into the loop|lp|sp|space you're in > in same loop|lp|sp|space
instead of the last # ch|chain >
and so on|forth all [the] [way] around|round|across > , rep around|round|across
and $onlike $until > , rep $until
around|round [the] joining|closing tr|dc|hdc|htr|dtr > around post of tr|dc|hdc|htr|dtr
from behind around|round > around
from the back around|round > around
the $plain at|from [the] start|beginning|beg of [the] next|first|last|each > the first $plain of next|first|last|each
"""
"""A line a wording: what is said, and after ">" what stands for it. "a|b" is either, "[a]" may be missing, "#" is a
number that is kept; either of several is kept where the plain words name the same ones; "$slip" is in `alike.py`."""
