"""What a part of the card is worth when not everything finds room: our judgement, least first.

A hard spot, a danger and the numbers of the opening never go before all else has gone. What a head must not
go past never goes at all: it is the one row that nobody who missed it can make good.
"""

from __future__ import annotations

ASSUMED = 10
MARK = 20
NOTICE = 25
BEFORE = 30
AFTER = 35
OPENING_STEP = 40
LATER_STEP = 45  # of the second technique and on
LOG = 48  # rows to write in: paper for them can be found, a step forgotten cannot; they go on behind
CAUTION = 50
TAP = 55
ASK = 60  # of what is less than a warning
EASY_SIGHT = 65
EASY_ROW = 66  # of a half sheet: a row in its few words, without what to do there
IF_SHUT = 68  # where to go if the opening does not open: nobody is stuck then, and the plan tells it too
TURNING_SIGHT = 75
STRIP = 85
FIRST_STEP = 86  # a drawing says what the rows say, the steps are told nowhere else
ORDERED_MARK = 88  # over what ends the way, where the plan's own order is to mark it
TURNING_ROW = 90
FOUND_MILD = 91  # a row of what held no push and asks for care alone: before what holds or hurts, it goes
MIND = 94  # a remark: what keeps people safe and what is met on the way is told without it
HARD_SIGHT = 95
FITTED_STEP = 95  # of what is put on the head before it goes in: once stuck it is too late to read
STUCK_HEAD = 96  # what to try at a hard spot and when to leave it: its heading names the spot as well
NOTICE_WORDS = 96  # a notice in few words: that a pipe bears no cutter is told nowhere else on paper
GETS_THERE = 97  # whether the push gets there, and what is left: looked for in front; named where it goes
LIKELIEST_END = 97  # in few words what to try where the push most likely ends: it has the first claim
HARD_ROW = 98  # the way itself is what half a sheet is for
WARNING_ASKED = 98  # that nobody has ruled out: it goes after every step, and no drawing stays for it
WARNING_WORDS = 98  # of a warning beyond the boxes, what it has beyond its few words
FOUND_WORDS = 98  # of what a push met, why: what to do there stays
LIKELIEST_ROW = 99  # and the row of that place
MACHINE = 100  # where a machine was stopped, by what somebody was told: what a push met is surer
BOX_WORDS = 101  # of a danger or warning in a box, what it has beyond its few words
FOUND_ROW = 102  # of what held a push on this way and a head gets past: nobody else knows of it
BEFORE_SAFE = 103  # what keeps people safe before the push
WARNING = 104  # beyond those in boxes, a caution in few words, what is never done to a stuck head
DANGER_ASKED = 105  # that nobody has ruled out
