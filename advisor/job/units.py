"""The units in which a job is told: said once to `ask` or `push`, they are kept in its folder."""

from __future__ import annotations

from pathlib import Path

from advisor.errors import BadInput, Fault
from advisor.job.folder import SITE, Job
from advisor.job.output import write_out
from advisor.quantity import Units
from advisor.strict_yaml import read_text


def keep_units(job: Job, given: str | None) -> None:
    """Keep the units that a command on the job was given; raises BadInput where they cannot be written."""
    if given is not None:
        write_out(job.units, f"{given}\n".encode(), force=True)


def told_units(given: str | None, site: Path | None) -> Units | None:
    """Those given, else those kept of the job whose folder or sheet it is; else none, so those of the region.

    Raises BadInput where what is kept is none.
    """
    if given is not None:
        return Units(given)
    if site is None or not (site.is_dir() or site.name == SITE):
        return None
    kept = Job(site if site.is_dir() else site.parent).units
    if not kept.exists():
        return None
    text = read_text(kept).strip()
    if text not in {each.value for each in Units}:
        expected = " or ".join(each.value for each in Units)
        raise BadInput([Fault(str(kept), 1, f"got {text[:40]!r}; expected {expected}")])
    return Units(text)
