"""What is amiss, and being put right: a lost place, a count that is off, a count taken together.

The part of `apply` that is theirs. Questions and answers are not kept in the journal, only what comes of them: a place,
a count, taps, a miscount that is carried along.
"""
