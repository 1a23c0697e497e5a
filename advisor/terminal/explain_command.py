"""`advisor explain`: finds what is asked about and hands it to the explainers."""

from __future__ import annotations

import json
from collections.abc import Sequence

from pydantic import BaseModel

from advisor.errors import BadInput, Fault, printable_json
from advisor.explain.change import cures
from advisor.explain.how import how_route, how_spot, how_technique
from advisor.explain.matters import not_looked_at, what_matters
from advisor.explain.met import ends_there, met_on, without_ended
from advisor.explain.reason import Reason, Story
from advisor.explain.vary import replaced, whole_path
from advisor.explain.what_if import present, what_if
from advisor.explain.why_not import why_not_route, why_not_technique
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import TECHNIQUES
from advisor.outcome.memory import Memory
from advisor.plan import plan
from advisor.push.log.log import standing_in
from advisor.push.met_before import met_before
from advisor.result.build import no_way_in, verdict_words
from advisor.result.chances import chance_words
from advisor.result.other_side import other_side_first
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.site.build import network_of
from advisor.site.sheet import SiteSheet
from advisor.strict_yaml import Sheet, plain
from advisor.strict_yaml.model import nearest
from advisor.tables.load import Tables
from advisor.terminal import explain_screen as screen
from advisor.terminal.page import Page
from advisor.terminal.progress import tell
from advisor.terminal.ready import Ready


def explain(ready: Ready, question: str, about: list[str], full: bool, as_json: bool) -> int:
    """Answer one question; raises BadInput where it is about nothing that is there."""
    case, page = ready.case, Page()
    standing = standing_in(ready.log) if ready.log else []
    if question == "what-if":
        path, value = _replacement(about, ready)
        old = present(case, ready.kit_sheet, path)
        met = met_before(plan(case, ready.tables, ready.base), standing) if standing else ()
        found = what_if(case, ready.kit_sheet, path, value, old, ready.tables, ready.base, met)
        if not _printed(found, as_json):
            screen.show_what_if(found, page)
        return 0
    if question in ("how", "why-not"):
        gear = [each.name for each in case.kit.loadouts]
        about = _called(
            case.sheet, ready.tables, about, gear
        )  # a name amiss is told before the plan is worked out
    memory = Memory()
    study = plan(case, ready.tables, ready.base, memory)
    met = met_before(study, standing)
    study = other_side_first(study, met)
    if not as_json:
        screen.show_verdict(verdict_words(study), page)
    if question == "matters":
        matters = what_matters(without_ended(study, met))
        if not _printed(matters, as_json):
            screen.show_matters(matters, not_looked_at(study), page)
    elif question == "changes":
        if not as_json and page.console.is_terminal:
            page.line("Planning the job again with each small change, one by one. Ctrl-C leaves.")
        changes = cures(case, study, ready.tables, ready.base, memory, tell, met)
        if not _printed(changes, as_json):
            against = screen.told_against(changes, study)
            screen.show_cures(changes, chance_words(study), page, against)
    else:
        story = _story(study, question, about, met)
        if not _printed(story, as_json):
            screen.show_story(story, full, page)
    return 0


def _printed(found: BaseModel | Sequence[BaseModel], as_json: bool) -> bool:
    """Print as JSON where that is asked for, and say whether it was."""
    if not as_json:
        return False
    if isinstance(found, BaseModel):
        print(printable_json(found.model_dump_json(indent=2)))
    else:
        print(json.dumps([each.model_dump() for each in found], indent=2))
    return True


def _replacement(about: list[str], ready: Ready) -> tuple[str, str]:
    """What is to be replaced by what; raises BadInput with an entry of this very sheet as an example."""
    text, sheet = " ".join(about), ready.case.sheet
    path, equals, value = (each.strip() for each in text.partition("="))
    if equals and path and value:
        return whole_path(path), value
    if path and "/" not in path:
        replaced(plain(sheet.tree), path, "", sheet.file)  # of a whole opening or line it tells what to say
    line = f"{sheet.model.lines[0].line}/size"
    old = present(ready.case, ready.kit_sheet, whole_path(path)) if path else None
    such = f"{path}={old}" if old else f"{line}={present(ready.case, None, line) or '100 mm'}"
    message = f"got {text!r}; expected LINE/ENTRY=VALUE, such as `{such}`"
    raise BadInput([Fault("what-if", 0, message)])


def _story(study: Study, question: str, about: list[str], met: Sequence[FoundNote] = ()) -> Story:
    elsewhere = next((each for each in no_way_in(study) if about[:1] == [each.opening]), None)
    if elsewhere is not None:
        text = f"{elsewhere.opening} is no way in"
        return Story(about=text, story=(elsewhere.why,), tree=Reason(text=text, of="chance"))
    place = about[1] if len(about) > 1 else None
    all_gear = [each.name for each in study.kit.loadouts]
    gear = place if place in all_gear else None
    place = None if gear else place
    outcome = _outcome(study, about[0] if about else None, gear)
    technique = about[-1] if about and about[-1] in TECHNIQUES else None
    whole = technique is None and place is None and not outcome.shut
    way = met_on(study, outcome, met) if whole else None
    if way is not None:
        return ends_there(study, outcome, way)
    if technique is None and question == "how":
        if place is None:
            return how_route(study, outcome)
        return how_spot(study, outcome, _spot(study, outcome, place))
    if technique is None:
        if place is not None:
            known = nearest(place, [*all_gear, *TECHNIQUES])
            raise BadInput([Fault("explain", 0, f"no technique and no gear is called {place!r}{known}")])
        ended = {each.outcome.route.id for each in study.ranked if met_on(study, each.outcome, met)}
        return why_not_route(study, outcome, ended)
    index = _spot(study, outcome, place) if place not in (None, technique) else _hardest(outcome)
    if question == "how" and technique in dict(outcome.spots[index].order):
        return how_technique(study, outcome, index, technique)
    return why_not_technique(study, outcome, index, technique)


def _called(sheet: Sheet[SiteSheet], tables: Tables, about: list[str], gear: list[str]) -> list[str]:
    """The words as opening, place or gear, technique, typed with quotes or not: `kitchen gully turn the rod`.

    Raises BadInput where they begin with no opening that is drawn.
    """
    known = [piece.name for piece in network_of(sheet, tables).openings()]
    whole = " ".join(about)
    technique = next((each for each in TECHNIQUES if f" {whole}".endswith(f" {each}")), "")
    if whole.endswith(tuple(gear)):  # whose name may end as a technique does: a head with a guide
        technique = ""
    words = whole.removesuffix(technique).strip()
    name = max((each for each in known if f"{words} ".startswith(f"{each} ")), key=len, default="")
    if words and not name:
        raise BadInput([Fault("explain", 0, f"no opening is called {words!r}{nearest(words, known)}")])
    return [each for each in (name, words.removeprefix(name).strip(), technique) if each]


def _outcome(study: Study, name: str | None, gear: str | None) -> RouteOutcome:
    """The best route from an opening, with that gear where some is named; without a name the leader."""
    if not study.ranked:
        raise BadInput([Fault("explain", 0, "no opening leads to the target; there is nothing to explain")])
    if name is None or name in TECHNIQUES:
        return study.ranked[0].outcome
    for ranked in study.ranked:
        if ranked.outcome.route.opening.name == name and gear in (None, ranked.outcome.loadout.name):
            return ranked.outcome
    named = [o for o in study.outcomes if (o.route.opening.name, o.loadout.name) == (name, gear)]
    if named:
        return max(named, key=lambda each: each.part_chance)
    with_ = f" with {gear}" if gear else ""
    raise BadInput([Fault("explain", 0, f"no way from {name!r}{with_} is in this plan")])


def _spot(study: Study, outcome: RouteOutcome, words: str | None) -> int:
    """The hard spot whose name holds the words, or whose number they are."""
    names = [place_name(spot, study.reader) for spot in outcome.spots]
    if words is not None and words.isdigit() and 1 <= int(words) <= len(names):
        return int(words) - 1
    for index, name in enumerate(names):
        if words is not None and words.lower() in name.lower():
            return index
    message = f"no hard spot there is called {words!r}" + (nearest(words or "", names) if names else "")
    raise BadInput([Fault("explain", 0, message)])


def _hardest(outcome: RouteOutcome) -> int:
    if outcome.hardest is None:
        raise BadInput([Fault("explain", 0, "nothing that is drawn on that way is hard for this kit")])
    return outcome.spots.index(outcome.hardest)
