"""An earlier machine run is asked for once, where anybody may know of it, and stands on the sheet."""

from __future__ import annotations

import pytest

from advisor.interview.answers import NONE, Answer
from advisor.interview.carry import carried
from advisor.interview.hazards import hazards
from advisor.interview.question import DONT_KNOW
from advisor.interview.store import Kept
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.interview.small_session import HOUSE, session
from tests.interview.test_carry import CALM

NO_RUN = "none was, as far as people remember"
FOOT = 0.3048  # m, by definition


def before(history: str):
    told = {**CALM, "backs-up": "toilet", "slow": NONE, "sewage-smell": "no", "history": history}
    return tuple(Answer(name, "job", (word,)) for name, word in told.items())


def run_of(of, answers):
    return site_of_text(of.sheets.text(answers), "site", tables()).model.task.history.last_run


@pytest.mark.parametrize("history", ["roots came back", NONE])
def test_it_is_asked_after_what_came_back_and_only_once(history):
    of = session(sheet=HOUSE)
    history = "roots" if history.startswith("roots") else history
    assert of.next(before(history)).question.id == "machine-run"
    for word in ("41 ft", NO_RUN, DONT_KNOW):
        after = of.next((*before(history), Answer("machine-run", "job", (word,))))
        assert after is None or after.question.id != "machine-run"


def test_from_which_opening_it_was_run_is_asked_where_one_was_and_stands_with_it():
    """Also a vent on the roof, from which machines are run. Where none was run it says nothing."""
    of = session(sheet=HOUSE)
    told = (*before(NONE), Answer("machine-run", "job", ("41 ft",)))
    of_it = (Answer("machine-when", "job", (DONT_KNOW,)), Answer("machine-cable", "job", (DONT_KNOW,)))
    asked = of.next((*told, *of_it))
    assert asked.question.id == "machine-from"
    assert {"floor cleanout", "roof vent"} <= {option.value for option in asked.options}
    of_vent = Answer("machine-from", "job", ("roof vent",))
    assert run_of(of, (*told, of_vent)).in_at == "roof vent"
    assert run_of(of, (*told, Answer("machine-from", "job", (DONT_KNOW,)))).in_at is None
    assert "standing" not in of.sheets.text((*told, of_vent)), "no water is told of"
    for word in (NO_RUN, DONT_KNOW):
        without = (*before(NONE), Answer("machine-run", "job", (word,)))
        assert of.next(without).question.id != "machine-from"
        assert run_of(of, (*without, of_vent)) is None


def test_what_it_was_run_from_is_there_on_the_sheet():
    """It was gone in by: no typical chance stands for it, and no word that nobody has looked. Told not to be
    there it stays so (what does not go together is told with the plan); without a run it says nothing."""
    of = session(sheet=HOUSE)
    by_it = Answer("machine-from", "job", ("floor cleanout",))
    ran, none = ((*before(NONE), Answer("machine-run", "job", (word,))) for word in ("41 ft", NO_RUN))
    gone = Answer("opening-there", "house drain/opening:floor cleanout", ("no",))

    def there(*answers: Answer) -> object:
        lines = of.sheets.tree(answers)["lines"]
        return next(
            p["there"] for line in lines for p in line["pieces"] if p.get("opening") == "floor cleanout"
        )

    assert there(*ran, by_it) == "yes"
    assert there(*ran) == there(*none, by_it) == "60 %"
    assert there(*ran, by_it, gone) == "no"


def test_one_of_which_nobody_knows_how_far_it_went_stands_on_the_sheet():
    """Its opening would lead to no place, so it is not asked for."""
    of = session(sheet=HOUSE)
    told = (*before(NONE), Answer("machine-run", "job", ("unknown",)))
    assert run_of(of, told) is not None
    assert run_of(of, told).to is None
    assert of.ask(told, "machine-run").words_of("unknown") == "one was, nobody knows how far"
    assert of.next(told).question.id != "machine-from"


def test_whoever_does_not_know_what_came_back_is_not_asked():
    assert session(sheet=HOUSE).next(before(DONT_KNOW)).question.id == "fine"


def test_how_far_it_went_stands_on_the_sheet_and_is_warned_of():
    of = session(sheet=HOUSE)
    told = (*before(NONE), Answer("machine-run", "job", ("41 ft",)))
    assert run_of(of, told).to.likely == pytest.approx(41 * FOOT)
    assert run_of(of, told).on is None
    for word in (NO_RUN, DONT_KNOW):
        assert run_of(of, (*before(NONE), Answer("machine-run", "job", (word,)))) is None
    fired = {
        f.conclusion.caution.id for f in of.study(told).site_firings if f.outcome and f.conclusion.caution
    }
    assert "machine-run" in fired


@pytest.mark.parametrize("runs", ["[{on: 2024, to: 30 ft}, {to: 12 ft}]", "{to: 12 ft}"])
def test_what_the_sheet_tells_of_runs_is_not_asked_and_stays(runs):
    of = session(sheet=HOUSE.replace("task:\n", f"task:\n  history: {{machine runs: {runs}}}\n"))
    asked = of.next(before(NONE))
    assert asked is None or asked.question.id != "machine-run"
    assert run_of(of, before(NONE)) is not None


def test_it_can_still_be_changed_once_the_sheet_was_edited_by_hand():
    of = session(sheet=HOUSE)
    told = (*before(NONE), Answer("machine-run", "job", ("41 ft",)))
    edited = of.sheets.text(told).replace("site: short house", "site: long house")
    held = carried(Kept("job", HOUSE, told, "mark", told), session(sheet=edited))
    assert held.lost == ()
    assert Answer("machine-run", "job", ("41 ft",)) in held.answers
    now = session(sheet=held.sheet)
    changed = tuple(a for a in held.answers if a.question != "machine-run")
    assert run_of(now, held.answers).to.likely == pytest.approx(41 * FOOT)
    assert run_of(now, changed) is None


def cautions(of, told) -> dict[str, str]:
    fired = of.study(told).site_firings
    return {
        f.conclusion.caution.id: f.conclusion.caution.text
        for f in fired
        if f.outcome and f.conclusion.caution
    }


def test_when_it_was_and_how_its_cable_came_back_are_asked_where_one_was_run():
    """The plan, the push and the card say `nobody knows when` of a month that nobody was asked for."""
    of = session(sheet=HOUSE)
    ran = (*before(NONE), Answer("machine-run", "job", ("41 ft",)))
    when = of.next(ran)
    assert when.question.id == "machine-when"
    assert [when.check(text) for text in ("2026-05", "2025", "2026-05-03")] == [None] * 3
    assert "expected a day such as 2026-05-03" in when.check("last May")
    told = (*ran, Answer("machine-when", "job", ("2026-05",)))
    assert "in 2026-05, 41 ft in" in cautions(of, told)["machine-run"]
    assert of.next(told).question.id == "machine-cable"
    kinked, straight = ((*told, Answer("machine-cable", "job", (word,))) for word in ("yes", "no"))
    assert run_of(of, kinked).came_back == ("kinked cable",)
    assert run_of(of, straight).came_back == ()
    assert "came back bent or kinked" in cautions(of, kinked)["cable-kinked"]
    assert "cable-kinked" not in cautions(of, straight)
    for word in (NO_RUN, DONT_KNOW):
        without = (*before(NONE), Answer("machine-run", "job", (word,)))
        assert of.next(without).question.id not in ("machine-when", "machine-cable")
        assert run_of(of, (*without, *told[-1:])) is None


def test_an_opening_that_it_was_run_from_and_that_is_not_there_is_told_and_leads_nowhere():
    of = session(sheet=HOUSE)
    ran = (*before(NONE), Answer("machine-run", "job", ("41 ft",)))
    ran = (*ran, Answer("machine-from", "job", ("floor cleanout",)))
    gone = (*ran, Answer("opening-there", "house drain/opening:floor cleanout", ("no",)))
    assert "machine-from-gone" not in cautions(of, ran)
    assert "in from floor cleanout" in cautions(of, ran)["machine-run"]
    assert "run from floor cleanout. That is told not to be there" in cautions(of, gone)["machine-from-gone"]
    assert "From which opening, nobody knows" in cautions(of, gone)["machine-run"]
    drains = [of.sheets.drain(each) for each in (ran, gone)]
    now, after = (hazards(each, of.known, Units.INCH) for each in drains)
    assert any("told not to be there" in words for words in set(after) - set(now)), "told with the answer"


def test_longer_than_the_whole_drain_may_be_is_asked_about_once():
    """HOUSE by hand: 20 + 15 + 9 + 9 + 9 + 40 ft at the most, so 102 ft."""
    asked = session(sheet=HOUSE).ask(before(NONE), "machine-run")
    assert asked.unusual("41 ft") is None
    assert asked.unusual("90 ft") is None
    assert asked.unusual("440 ft") == pytest.approx((0, 102 * FOOT))
