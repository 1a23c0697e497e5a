"""What the pushes of a job went for, and how much of it they have shown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from advisor.push.before.goal import for_another, went_for
from advisor.push.before.seen_words import measures, seen_words, unseen_words
from advisor.push.before.way_taken import read_in, recognized, way_taken
from advisor.push.log.kinds import FIND
from advisor.push.log.went_in import lens_in
from advisor.push.now.datum import Datum, datum_of
from advisor.push.now.never_passed import NotPassed, never_passed
from advisor.push.now.seen import Coverage, Run, coverage_of
from advisor.push.track.leg import NO_DISTANCE
from advisor.result.study import Study

_NONE: Mapping[int, int] = MappingProxyType({})


@dataclass(frozen=True)
class Seen:
    """One thing that was to be seen, in the study that goes for it, and what the pushes show of it."""

    study: Study
    runs: tuple[Run, ...]
    cover: Coverage
    stops: tuple[NotPassed, ...]

    @property
    def datum(self) -> Datum:
        """From where its lengths count."""
        return datum_of(self.cover.line, self.runs, self.study.network)

    @property
    def denied(self) -> bool:
        """Whether the pushes that went for it ended with the word that it was not reached, and no other did
        reach it."""
        own = [run for run in self.runs if not for_another(run, self.study)]
        own = [run for run in own if went_for(run, self.study).wanted.words == self.study.wanted.words]
        ended = [run.ended.data.get("reached") for run in own if run.ended is not None]
        return False in ended and not any(run.told_reached for run in own)

    def told(self, numbers: Mapping[int, int] = _NONE) -> tuple[str, ...]:
        """How much of it was seen; `numbers` of finds, by their entry."""
        finds = self._at_finds(numbers)
        return seen_words(self.cover, self.runs, self.study, self.datum, self.stops, self.denied, finds)

    def missed(self, why: str = "", numbers: Mapping[int, int] = _NONE) -> tuple[str, ...]:
        """What of it was not."""
        finds = self._at_finds(numbers)
        return unseen_words(
            self.cover, self.runs, self.study, self.datum, self.stops, why, self.denied, finds
        )

    def _at_finds(self, numbers: Mapping[int, int]) -> dict[float, str]:
        """Where what was seen ends at a find, by m down the line: the lens at its farthest is one place,
        though counter and tracker have it in two."""
        edges, found = {at for span in self.cover.unseen for at in span}, dict[float, str]()
        for run in self.runs:
            lens, far = lens_in(run.entries), run.went_in
            finds = [entry for entry in run.entries if entry.kind == FIND and entry.number in numbers]
            there = [
                each
                for each in finds
                if far is not None and abs(lens.get(each.number, 0.0) - far) < NO_DISTANCE
            ]
            shown = covered((run,), self.study) if there else None
            # Where it is not sure which way it went further on, what was seen ends short of the find.
            ends = () if shown is None or shown.unsure else shown.seen
            for at in (at for span in ends for at in span):
                edge = next((each for each in edges if abs(each - at) < NO_DISTANCE), None)
                if edge is not None:
                    found[edge] = f"find no. {numbers[there[-1].number]}"
        return found

    def task(self) -> tuple[str, str]:
        """What it is, how long, and from where its lengths count."""
        whole = measures(self.study)(self.cover.length)
        return (
            f"To be seen: {self.study.wanted.words}, {whole} of {self.cover.line} by the sheet.",
            self.datum.told(),
        )


def gone_for(runs: Iterable[Run], study: Study) -> tuple[Study, ...]:
    """The plan for each thing that the pushes went for, in order; without a push that which is asked now.

    What was worked out from the complaint is worked out anew after each push: the report is on what was gone
    for then. A push for a part of what is asked went for that.
    """
    found: dict[str, Study] = {}
    for run in runs:
        one = went_for(run, study)
        found.setdefault(one.wanted.words, one)
    return tuple(found.values()) or (study,)


def not_gone_for(
    studies: Iterable[Study], study: Study, runs: tuple[Run, ...]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """That no push went for what is likeliest now; and where one came there all the same, how much of it was
    seen, in words for whoever reads no more than that."""
    if any(each.wanted.words == study.wanted.words for each in studies):
        return (), ()
    none = f"No push went for {study.wanted.words}, where the trouble is likeliest by what is told"
    seen = shown(runs, study)
    if not seen.cover.seen:
        return (f"{none}.",), ()
    return (f"{none}. One came there all the same.",), (*seen.told(), *seen.missed())


def shown(runs: tuple[Run, ...], study: Study) -> Seen:
    """What the pushes show of what one plan goes for."""
    stops = never_passed(runs, study.network, study.tables, study.wanted, lambda run: read_in(run, study))
    return Seen(study, runs, recognized(runs, covered(runs, study), study), stops)


def covered(runs: Iterable[Run], study: Study) -> Coverage:
    """How much of it they have shown."""
    return coverage_of(
        runs,
        study.network,
        study.tables,
        study.wanted,
        lambda run: way_taken(run, study),
        lambda run: read_in(run, study),
    )
