"""Beside the opening: the order of what comes first, what the plan rules out, a stop that is gone back to."""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as sitting
from advisor import demo
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.before import before_push, ruled_out
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables
from tests.terminal.test_cautions_shown import boxes
from tests.terminal.test_push_answers import HELD, standing
from tests.terminal.test_push_session import BEGIN

job, push = sitting.job, sitting.push  # fixtures
SLAB = next(path for path in demo.ALL if path.stem == "slab-house").read_text()
UNSAFE = SLAB.replace("\nbuilt:", "\nroof safe: no\nbuilt:", 1)
KIND = """
site: invented
region: north america
map: sketch
lines:
  - line: house drain
    size: 4 in
    material: cast iron
    pieces:
      - opening: way in
        kind: {KIND}
      - pipe: 9 m
      - end: public sewer
task: {look at: house drain, complaint: {holding: no, chemicals: no}}
"""


def study(text: str) -> Study:
    kit = kit_of(read_kit(demo.KIT), tables())
    return plan(Case(site_of_text(text, "site", tables()), kit, Units.INCH, 200), tables(), rules())


# -- the order of what comes before -------------------------------------------------------------------


def test_the_plug_is_touched_after_what_is_to_be_asked_and_before_what_needs_it_open():
    made = study(KIND.replace("{KIND}", "floor cleanout"))
    steps = plan_of(made).routes[0].before

    def place(words: str) -> int:
        (found,) = (at for at, step in enumerate(steps) if words in step)
        return found

    asked = ("when it was last cleared", "into one fixture above", "hold off water")
    assert max(map(place, asked)) < place("Keep a spare plug")
    assert place("Keep a spare plug") < place("one thread") < place("Zero the counter at the rim")
    told = before_push(made, "way in", made.kit.loadouts[0].name)
    assert (*told.always, *told.here) == steps
    assert any("one thread" in step for step in told.here)
    assert "over the rim" in told.here[-2]
    assert "Zero the counter" in told.here[-1]


def test_beside_the_opening_what_comes_before_every_push_is_asked_first(push):
    said = push(BEGIN + "q")
    done, here = said.index("Done what comes before every push"), said.index("At this opening")
    assert done < here < said.index("Which way does this opening lead?")


@pytest.mark.parametrize("kind", sorted(tables().openings))
def test_no_step_at_an_opening_is_told_twice(kind):
    """By hand: the thing that a step is about, once in all that is to be done there."""
    made = study(KIND.replace("{KIND}", kind))
    told = before_push(made, "way in", made.kit.loadouts[0].name)
    steps = [step.lower() for step in (*told.always, *told.here)]
    for about in ("one thread", "spare plug", "stop valve", "bucket under", "wider at the roof", "bowl."):
        assert sum(about in step for step in steps) <= 1, about
    assert sum("a thread" in step or "one thread" in step or "a turn and wait" in step for step in steps) <= 1


# -- what the plan rules out --------------------------------------------------------------------------


def test_an_opening_that_the_plan_rules_out_says_so_in_the_choice(job, push):
    job.site.write_text(UNSAFE)
    said = push("nn" + "b")
    assert "roof vent (ruled out: nobody goes on the roof)" in said
    assert said.count("ruled out:") == 1
    key = next(word for word in said.split(" roof vent (ruled")[0].split()[::-1])
    push(f"nn{key}yPip saw it\r1yy\r\r" + "q")
    start = standing(job)[0].data
    assert start["opening"] == "roof vent", "it may be taken all the same, under its own name"
    assert "Seen otherwise: Pip saw it" in str(start["told"])


def test_only_what_is_closed_whatever_goes_in_is_ruled_out():
    assert ruled_out(study(UNSAFE), "roof vent") == "Nobody goes on the roof"
    assert ruled_out(study(SLAB), "roof vent") is None, "nobody has looked"
    standpipe = study(KIND.replace("{KIND}", "washing-machine standpipe"))
    assert ruled_out(standpipe, "way in") == "The trap is in the wall"
    assert ruled_out(study(KIND.replace("{KIND}", "floor cleanout")), "way in") is None


@pytest.mark.parametrize(("told", "why"), [("no", "it does not open"), ("yes", None)])
def test_an_opening_that_was_told_not_to_open_is_ruled_out(told, why):
    kind = KIND.replace("{KIND}", f"floor cleanout\n        opens: {told}")
    assert ruled_out(study(kind), "way in") == why


# -- a stop that is gone back to ----------------------------------------------------------------------


def test_after_a_try_is_taken_back_the_stop_goes_on_where_it_was(job, push):
    said = push(BEGIN + HELD + "thfn" + "thfn" + "m" + "u" + "thfn" + "m" + "q")
    after = said.partition("Taken back: try")[2]
    assert after.index("HELD AT") < after.index("And now?") < after.index("What now?")
    assert "What do you see?" not in after, "the signs stand in the log"
    assert [entry.kind for entry in standing(job)].count("try") == 2
    assert "one try left" in after.partition("And now?")[0], "the first try that failed is counted"


def test_what_was_offered_after_a_try_goes_with_it(job, push):
    push(BEGIN + "s\r10" + "10" + "thfn" + "thfn" + "m" + "q")
    kinds = [entry.kind for entry in standing(job)]
    assert kinds[-1] == "offered", "something else is offered once the tries are spent"
    push("u" + "m" + "q")
    again = [entry.kind for entry in standing(job)]
    assert again == ["start", "stopped", "offered", "try"]


def test_any_other_entry_taken_back_leads_to_the_main_list(job, push):
    said = push(BEGIN + "r9\rn" + "u" + "q")
    assert "And now?" not in said


def test_no_gentle_push_is_proposed_where_it_was_held_already(push):
    said = push(BEGIN + HELD + "m" + "q").rpartition("COUNTER")[2]
    words = " ".join(said.replace("│", " ").split())
    assert "It was held here: a gentle push did not do. Turn the rod:" in words
    assert "First a gentle push" not in words


# -- an object before the lens, and a hard try --------------------------------------------------------


@pytest.mark.parametrize("text", ["north america", "britain"])
@pytest.mark.parametrize(
    ("opening", "keys", "warned"),
    [
        ("floor cleanout", "s9\r94" + "0" + "0", True),  # an object, far from any fitting
        ("floor cleanout", "s9\r1" + "0" + "0", True),  # a wall where there is none
        ("floor cleanout", "s9\r4" + "0" + "0", False),  # an open pipe
        ("stack-base cleanout", "s\r1" + "0" + "0", False),  # a wall at the turn of the opening
        ("stack-base cleanout", "s\r94" + "0" + "0", True),
    ],
)
def test_a_gas_line_is_warned_of_where_an_object_may_be_seen(job, push, capsys, text, opening, keys, warned):
    job.site.write_text(KIND.replace("{KIND}", opening).replace("north america", text))
    made = study(job.site.read_text())
    (caution,) = (note for note in plan_of(made).cautions if note.id == "gas-line-across-bore")
    shown = push("n11ys\r\r" + keys + "m" + "q", raw=True).partition("HELD")[2]
    found = " ".join(boxes(shown.splitlines()).get("WARNING", []))
    assert (caution.text in found) is warned


@pytest.mark.parametrize(("passes", "held"), [(False, True), (True, False)])
def test_a_push_gone_on_with_while_it_is_held_tells_the_stop_again(job, push, passes, held):
    """By somebody else perhaps: what may be an object, what first, and what not to do."""
    job.site.write_text(KIND.replace("{KIND}", "floor cleanout"))
    (caution,) = (n for n in plan_of(study(job.site.read_text())).cautions if n.id == "gas-line-across-bore")
    push("n11ys\r\r" + "s9\r9d" + "0" + "0" + ("gpfn" if passes else "m") + "q")
    shown = push("q", raw=True)
    assert ("HELD" in shown) is held
    if held:
        stopped = shown.partition("HELD")[2]
        assert caution.text in " ".join(boxes(stopped.splitlines()).get("WARNING", []))
        assert "scale, grease, waste or an object" in " ".join(stopped.split()).lower()


@pytest.mark.parametrize(("force", "told"), [("h", True), ("f", False)])
def test_a_hard_try_where_it_said_stop_is_remarked_on(push, force, told):
    """Roots or waste before it: by the matrix a push wedges the head there."""
    said = push(BEGIN + "s9\r9d0" + "0" + f"gh{force}n" + "m" + "q")
    assert "STOP" in said
    why = rules().matrix.cells["steady push", "bore too small"].why
    assert (f"Pushed hard where it said stop. {why}" in said) is told


def test_a_hard_try_where_nothing_was_boxed_draws_no_remark(push):
    assert "Pushed hard" not in push(BEGIN + HELD + "thhn" + "m" + "q")
