"""The jobs that are learned from: a list in the user's own folder, and what was worked out of each before."""

from __future__ import annotations

import json
from contextlib import suppress
from dataclasses import asdict
from hashlib import sha256
from pathlib import Path

import advisor
from advisor.errors import BadInput, Fault
from advisor.job.folder import Job, job_at, job_kit
from advisor.job.output import write_out
from advisor.job.own import own_folder, own_kit
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import read_kit
from advisor.outcome.learned import BOOK, Learned
from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS, Case
from advisor.push.learn.learn import Lessons, Told, lessons_of, told_by
from advisor.push.learn.taught import Try
from advisor.push.log.log import Log, standing
from advisor.push.report.export import json_of
from advisor.rulebase.load import RuleBase
from advisor.site.sheet import read_site, usual_units
from advisor.tables.load import Tables

LIST, CACHE = "jobs.txt", "learned-before.json"


def listed() -> tuple[Path, ...]:
    """The folders of the jobs that are learned from, in the order in which they were added."""
    path = own_folder() / LIST
    if not path.exists():
        return ()
    try:
        return tuple(Path(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip())
    except (OSError, UnicodeDecodeError) as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be read: {fault}")]) from None


def remember(jobs: list[Path], forget: bool) -> None:
    """Put jobs on the list, or take them off it; raises BadInput, and then the list is as it was."""
    known = list(listed())
    for given in jobs:
        path = given.resolve()
        if forget:
            if path not in known:
                raise BadInput(
                    [Fault(str(given), 0, "nothing is learned from this job; see advisor learn show")]
                )
            known.remove(path)
            continue
        if not job_at(given).log.is_file():
            raise BadInput([Fault(str(given), 0, "there is no log in this folder to learn from")])
        if not str(path).isprintable():
            raise BadInput([Fault(str(given), 0, "its path has characters that cannot be listed")])
        known += [path] if path not in known else []
    folder = own_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise BadInput([Fault(str(folder), 0, f"cannot be made: {fault.strerror}")]) from None
    write_out(folder / LIST, "".join(f"{path}\n" for path in known).encode(), force=True)


def lessons_now(rules: Path, tables: Tables, base: RuleBase) -> tuple[Lessons, tuple[Fault, ...]]:
    """What the listed jobs teach, from their logs as they are now; and what keeps others from teaching.

    What was worked out of the same log, sheets and rules before is taken from the user's folder; it is only
    ever looked up by the digest of all of these, so it can be thrown away and changes nothing.
    """
    before, now, told, faults = _cached(), {}, list[Told](), list[Fault]()
    program = _digest_of(rules)
    for folder in listed():
        try:
            job = job_at(folder)
            key = _key(job, program)
            if key not in before:
                before[key] = _packed(_told(job, tables, base))
            now[key] = before[key]
            told.append(_unpacked(now[key]))
        except BadInput as fault:
            faults += fault.faults
    if now != _cached():
        # It only saves time: where it cannot be kept, it is worked out again.
        with suppress(BadInput):
            write_out(own_folder() / CACHE, json.dumps(now).encode(), force=True)
    return lessons_of(told, tables), tuple(faults)


def learned_now(rules: Path, tables: Tables, base: RuleBase) -> Learned:
    """What the planner takes over; a job that cannot be read teaches nothing and stops no plan."""
    return lessons_now(rules, tables, base)[0].learned if listed() else BOOK


def _told(job: Job, tables: Tables, base: RuleBase) -> Told:
    sheet = read_site(job.site, tables)
    kit = job_kit(job.folder) or own_kit()
    made = kit_of(read_kit(kit), tables) if kit else default_kit(tables)
    case = Case(sheet, made, usual_units(sheet.model), DEFAULT_WORLDS, DEFAULT_SEED)
    log = Log.read(job.log)
    try:
        return told_by(log.standing(), case, tables, base)
    finally:
        log.close()


def _key(job: Job, program: str) -> str:
    """What the lessons of a job hang on: its entries, its sheets, the rules and the program."""
    log = Log.read(job.log)
    try:
        entries = log.entries()
    finally:
        log.close()
    kit = job_kit(job.folder) or own_kit()
    parts = [program, json_of(standing(entries)), _text(job.site), _text(kit) if kit else ""]
    return sha256("\0".join(parts).encode()).hexdigest()


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be read: {fault}")]) from None


def _digest_of(rules: Path) -> str:
    made = sha256()
    for path in (*sorted(rules.rglob("*.yaml")), *sorted(Path(advisor.__file__).parent.rglob("*.py"))):
        made.update(path.read_bytes())
    return made.hexdigest()


def _cached() -> dict[str, dict[str, object]]:
    """What is there, if it is sound."""
    with suppress(OSError, ValueError):
        kept = json.loads((own_folder() / CACHE).read_text(encoding="utf-8"))
        if isinstance(kept, dict):
            return {key: told for key, told in kept.items() if _sound(told)}
    return {}


def _sound(told: object) -> bool:
    with suppress(Exception):
        _unpacked(told)
        return True
    return False


def _packed(told: Told) -> dict[str, object]:
    packed = asdict(told)
    return {**packed, "friction": None if told.friction is None else list(told.friction)}


def _unpacked(kept: object) -> Told:
    assert isinstance(kept, dict)
    friction = kept["friction"]
    tries = tuple(
        Try(str(t["technique"]), str(t["way"]), float(t["book"]), bool(t["passed"])) for t in kept["tries"]
    )
    return Told(tries, int(kept["pushes"]), None if friction is None else tuple(map(float, friction)))
