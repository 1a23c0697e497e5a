"""What stands after an answer is what the plan of the same answers begins with, whichever answer it was.

The plan of a house whose crawl space cleanout is not there begins where a try is quick, before the toilet is
pulled, which reaches it more often. A length told of a part changes what the part is.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.archetype import typical
from advisor.interview.answers import NONE, Answer
from advisor.interview.dialogue import Session
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, preview, work_through
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables
from tests.interview.small_session import known

pytestmark = pytest.mark.slow  # whole houses or many solutions: seconds each

TWO_REELS = """
kit: two reels
heads:
  - {head: large, like: large reel, diameter: 46 mm, length: 70 mm, nose: round}
  - {head: small, like: small reel, diameter: 28 mm, length: 40 mm, nose: round}
springs:
  - {spring: firm, like: large reel, length: 120 mm, feel: firm}
  - {spring: soft, like: small reel, length: 80 mm, feel: soft}
rods:
  - {rod: thick, like: large reel, length: 45 m, diameter: 11 mm}
  - {rod: thin, like: small reel, length: 20 m, diameter: 7 mm}
loadouts:
  - {head: large, spring: firm, rod: thick}
  - {head: small, spring: soft, rod: thin}
"""
CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "deep"), "no")
SLOW = {"backs-up": (NONE,), "slow": ("kitchen sink",), "fine": ("bath", "toilet")}
BOUGHT = {
    "backs-up": (NONE,),
    "slow": (NONE,),
    "fine": ("toilet", "kitchen sink"),
    "look-at": ("house drain",),
}
YARD = "house drain/opening:yard cleanout"
JOBS = {
    "crawl-space": (
        SLOW,
        Answer("opening-there", "house drain/opening:crawl space cleanout", ("no",)),
        Answer("opening-there", YARD, ("yes",)),
    ),
    "slab-one-storey": (
        BOUGHT,
        Answer("opening-there", YARD, ("yes",)),
        Answer("run", "house drain/after yard cleanout/pipe 1", ("145 ft",)),
    ),
}


@pytest.mark.parametrize("building", JOBS)
def test_the_word_that_stands_is_that_of_the_plan_of_the_same_answers(building):
    sheet = typical(next(b for b in known().buildings if b.id == building), 1978)
    kit = kit_of(kit_of_text(TWO_REELS, "kit"), tables())
    of = Session(replace(known(), sheet=sheet, kit=kit, worlds=300))
    complaint, *told = JOBS[building]
    answers = (
        *(Answer(name, "job", (word,)) for name, word in CALM.items()),
        *(Answer(name, "job", words) for name, words in complaint.items()),
    )
    for answer in told:
        answers = (*answers, answer)
        words = of.standing(answers).words()
        site = site_of_text(of.sheets.text(answers), "site", tables())
        case = Case(site, kit, Units.INCH, 300, of.known.seed)
        first = plan_of(work_through(preview(case), tables(), rules())).routes[0]
        assert first.opening in words
        assert f"{100 * first.chance:.0f} %" in words
