"""The Plan: frozen, serialisable, SI; `docs/plan.schema.json` is generated from it."""

from __future__ import annotations

from advisor.quantity import never_certain
from advisor.result.frozen import Frozen
from advisor.result.order_model import AttemptNote, ComparedNote
from advisor.result.target_model import SeenNote, TargetNote
from advisor.result.way_model import BehindNote, FoundNote, MetStopNote, NotPastNote, RunNote, TapNote


class CautionNote(Frozen):
    """A caution: hazard, signal word, text, that in few words; whether it was told to lie in the pipe."""

    id: str
    word: str
    text: str
    short: str = ""
    in_the_pipe: bool = False


class AskNote(Frozen):
    """A hazard that nobody has spoken of: what to ask, and the caution that holds until it is settled.

    `doubted`: it was spoken of, but with something else that was said it cannot be.
    """

    about: tuple[str, ...]
    caution: CautionNote
    if_not: bool = False  # the hazard is there if the answer is no
    decides: bool = False  # whether anybody pushes at all
    doubted: bool = False


class TechniqueNote(Frozen):
    """One technique at one hard spot; `verdict`: try, allowed, useless, not worth it, required, rejected."""

    name: str
    verdict: str
    chance: float | None
    tries: int
    because: str
    steps: tuple[str, ...]
    rules: tuple[str, ...]
    wedged: bool = False  # it wedged a head there in a push of the job, so that it is rejected
    before: str = ""  # what else came of it there in a push of the job; then no chance is claimed
    unless: str = ""  # where it is done all the same, though it is rejected


class Variant(Frozen):
    """What an unknown fitting may be, and how likely that is."""

    name: str
    share: float


class PassageNote(Frozen):
    """One hard spot on a route. Margins are what there is over what is needed (median over worlds).
    `somewhere`: it lies anywhere between the two ends of a run, for nobody knows at which joint."""

    name: str
    kind: str
    variants: tuple[Variant, ...]
    line: str
    at_m: float
    at_low_m: float
    at_high_m: float
    somewhere: bool
    direction: str
    difficulty: tuple[str, ...]
    chance_plain: float
    chance: float
    kinks: float  # share of pushes there that harm rod or spring
    margins: dict[str, float]
    techniques: tuple[TechniqueNote, ...]
    cautions: tuple[CautionNote, ...]
    here: tuple[CautionNote, ...]  # of those, what is of this place and of no other
    runs_on_m: float | None = None  # of a run: the same pipe goes on behind the end of the way, to here
    looked: str = ""  # of a run: as far as pushes looked along it and told of none
    only_if: str = ""  # what must be seen before a push there: it may as well be what must not be passed


class SightNote(Frozen):
    """Something that comes into view; `sight` is its kind, `hard` its number among the hard spots.

    `side` is as seen on the way in. `along_m` is the reading less what goes straight down or up: where to
    stand above ground. The depth is below level ground; nothing where nobody measured it at the opening, far
    behind it on an assumed slope, and at the main that the drain ends in.
    """

    sight: str
    name: str
    line: str
    at_m: float
    at_low_m: float
    at_high_m: float
    along_m: float
    side: str | None
    hard: int | None
    assumed: bool  # that there is such a thing at all is our planning value
    level: bool
    depth_m: float | None
    depth_measured: bool
    indoors: bool = False  # its water falls down a stack yet: nobody stands on the ground above it
    behind: bool = False  # straight on behind the end of the way, where no head is to go
    unless: bool = False  # of what must not be passed: it may lie further on too, behind open pipe
    somewhere: bool = False  # plain pipe that may hold the head anywhere along it
    goes_on: str = ""  # of the end of a way: how the pipe goes on there, as the words of the card call it
    to_stop_m: float | None = None  # of a turn or chamber: on to what must not be passed, at the least


class LoadoutNote(Frozen):
    """What goes in together."""

    name: str
    head: str
    spring: str
    rod: str
    guide: str | None
    names_spring: bool  # whether its name tells the spring


class RouteNote(Frozen):
    """One way in, with its best loadout. Distances are medians over the worlds.

    `chance` is to see the whole target in this one push, `part_chance` the share `covers` of it where that is
    below one. Where a push met what ends it (`ended`) both are nothing, as is `leads`; what mostly ends it
    before that stays in `blocked_by` and `ends`, which else are nothing too.
    """

    rank: int
    opening: str
    opening_kind: str
    place: str
    shut: bool  # it does not open, or a rule bars it: left out, with no chance and no minutes worth telling
    loadout: LoadoutNote
    chance: float
    covers: float
    part_chance: float
    leads: float
    minutes: float
    score_minutes: float
    opening_minutes: float
    reach_m: float
    reel_m: float
    length_m: float
    down_m: float  # of that, down from the hand to the line: it leads nobody along it
    seen_m: float
    unseen: tuple[str, ...]
    smallest_bore_m: float
    head_diameter_m: float
    spring_diameter_m: float
    bends: int
    turns_undrawn: int = 0  # and as many more that a push saw and no sheet draws
    fittings: dict[str, int]
    total_turn_rad: float
    tightest_radius_m: float | None
    rod_minimum_radius_m: float
    spring_minimum_radius_m: float
    pull_n: float
    pull_limit_n: float
    pull_rests_on: str  # what bears least of spring, coupling and hand, and how weakly that is known
    harm: float
    ends: tuple[EndNote, ...]  # what ends it before the target, the worst first
    blocked_by: str | None
    blocked_at_m: float | None  # how far in that is, or the push mostly comes
    hand_distance_m: float
    stroke_m: float
    fold_m: float | None  # with that stroke unguided: what the hand may go on once the head has stopped
    direction: str
    leaves: str  # the port of the opening that the rod goes by
    mouth: str  # the line that begins there
    difficulty: tuple[str, ...]
    before: tuple[str, ...]
    opening_steps: tuple[str, ...]  # of `before`, what is done at this opening only
    passages: tuple[PassageNote, ...]
    cautions: tuple[CautionNote, ...]
    ask: tuple[AskNote, ...]  # of its opening and way; of the site: see the plan
    bring: tuple[str, ...]
    sights: tuple[SightNote, ...]
    not_past: NotPastNote | None
    behind_end: tuple[BehindNote, ...]
    runs: tuple[RunNote, ...]
    taps: tuple[TapNote, ...]
    stops: tuple[MetStopNote, ...] = ()  # what held a push on it, where the plan has nothing hard

    @property
    def led(self) -> tuple[str, str, str]:
        """By which opening, port and mouth of it the rod goes in."""
        return self.opening, self.leaves, self.mouth

    @property
    def ended(self) -> NotPastNote | None:
        """What a push met on it, that no head goes past."""
        return self.not_past if self.not_past is not None and self.not_past.met else None


class OpenNote(Frozen):
    """An opening that the plan says to open though nothing is pushed in there: how, and what can hurt."""

    opening: str
    kind: str
    place: str
    steps: tuple[str, ...]
    cautions: tuple[CautionNote, ...]
    ask: tuple[AskNote, ...]


class SuspectNote(Frozen):
    """A section that may hold the trouble."""

    section: str
    chance: float
    because: tuple[str, ...]


class AssumedNote(Frozen):
    """A value that nobody gave."""

    about: str
    taken: str
    grade: str
    weak: bool


class EndNote(Frozen):
    """A place or cause that ends a share of the pushes of one way in; `why` completes "it ends because"."""

    where: str
    why: str
    share: float


class Stopped(Frozen):
    """Where a route ends that does not reach the target."""

    opening: str
    passage: str
    at_m: float
    why: str
    direction: str | None = None  # `with` the flow, `against` it, or `both`


class ChanceWords(Frozen):
    """From which share on a chance is called likely, below which unlikely, below which it hardly counts."""

    likely: float
    unlikely: float
    least: float

    def say(self, chance: float) -> str:
        """likely, even or unlikely, with the number behind it; nothing is certain."""
        word = "likely" if chance >= self.likely else "unlikely" if chance <= self.unlikely else "even"
        number = f"{100 * never_certain(chance):.0f} %" if chance >= 0.005 else "under 1 %"
        return f"{word} ({number})"


class Plan(Frozen):
    """The whole plan."""

    site: str
    region: str
    first_step: str
    how: tuple[str, ...]
    to_open: tuple[OpenNote, ...]  # what `how` sends to, where it is no push
    camera_now: bool
    until: str | None  # what must be so before any push
    doubt: str | None  # what was said of the water that cannot both be, and which of it counts
    out: str | None  # what of the kit kinked in a push of the job, so that no way with it is planned
    left_in: tuple[str, ...] = ()  # head and rod that pushes left in the pipe: told before all else
    seen: SeenNote = SeenNote()  # where pushes saw all of what it goes for: told first
    stopped: tuple[str, ...] = ()  # where pushes of the job were held; gear to be looked at
    counted: str = ""  # what its chances know of that; no card has room for it
    found: tuple[FoundNote, ...] = ()  # what pushes of the job saw on the way in from where they began
    told: tuple[str, ...] = ()  # what a push of the job was told of what nobody has said: it settles nothing
    no_plan: bool  # nobody works here until then
    holding: bool | None
    broken: bool  # what came back or was seen tells of a broken place somewhere
    target: TargetNote
    suspects: tuple[SuspectNote, ...]
    routes: tuple[RouteNote, ...]
    attempts: tuple[AttemptNote, ...]
    attempts_minutes: float
    attempts_chance: float | None  # nothing where one of them has none
    compared: tuple[ComparedNote, ...]
    cautions: tuple[CautionNote, ...]
    ask: tuple[AskNote, ...]
    bring: tuple[str, ...]
    failing_minutes: float  # as which a job left undone is counted
    assumed: tuple[AssumedNote, ...]
    weak: tuple[str, ...]
    worlds: int
    preview_of: int | None  # a first look: the whole plan works through this many
    chance_words: ChanceWords
    learned: tuple[str, ...]  # what logged pushes have changed, and from how many
    seed: int
    routes_cut: bool
    cannot: tuple[Stopped, ...]
    no_way_in: tuple[Stopped, ...]  # openings that lead nowhere for a rod
