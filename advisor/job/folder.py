"""A job: one folder that holds the sheets, the answers and the log of one call-out.

site.yaml      the site sheet
kit.yaml       the kit of this job, where it is not the truck's usual one
answers.yaml   the answers of the question session
log.db         the log of pushes
units.txt      the units that `ask` or `push` was told, where it was
"""

from __future__ import annotations

import os
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from advisor.errors import BadInput, Fault

SITE, KIT, ANSWERS, LOG, UNITS = "site.yaml", "kit.yaml", "answers.yaml", "log.db", "units.txt"
LONGEST_FOLDER = 60
# Names that one common system of files gives to devices.
_DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{i}" for port in ("com", "lpt") for i in range(1, 10))}


@dataclass(frozen=True)
class Job:
    """The folder of one job."""

    folder: Path

    @property
    def name(self) -> str:
        """What the job is called."""
        return self.folder.resolve().name

    @property
    def site(self) -> Path:
        """Its site sheet."""
        return self.folder / SITE

    @property
    def kit(self) -> Path:
        """Its own kit sheet; mostly there is none."""
        return self.folder / KIT

    @property
    def answers(self) -> Path:
        """The answers of its question session."""
        return self.folder / ANSWERS

    @property
    def log(self) -> Path:
        """The log of its pushes."""
        return self.folder / LOG

    @property
    def units(self) -> Path:
        """The units that were said for it; mostly there are none."""
        return self.folder / UNITS


def job_at(path: Path) -> Job:
    """The job in a folder that is there; raises BadInput."""
    if not path.is_dir():
        what = "this is a file" if path.exists() else "there is no such folder"
        raise BadInput([Fault(str(path), 0, f"{what}; expected the folder of a job, with a {SITE} in it")])
    return Job(path)


def site_sheet(path: Path) -> Path:
    """The site sheet that a path names: a sheet itself, or the one in a job's folder. Raises BadInput."""
    if not os.path.lexists(path):
        message = "there is no such file or folder of a job; a new job begins with: advisor ask"
        raise BadInput([Fault(str(path), 0, message)])
    if not path.is_dir():
        return path
    job = Job(path)
    if not job.site.is_file():
        raise BadInput([Fault(str(path), 0, f"there is no {SITE} in this folder; is it a job?")])
    return job.site


def job_kit(path: Path) -> Path | None:
    """The kit sheet of its own that a job's folder holds, if it is one and does."""
    kit = Job(path).kit
    return kit if path.is_dir() and kit.is_file() else None


def new_job(parent: Path, name: str) -> Job:
    """A folder for a new job, named after what people call it; never one that is there already."""
    base = folder_name(name)
    for number in range(1, 1000):
        folder = parent / (base if number == 1 else f"{base}-{number}")
        try:
            folder.mkdir()
        except FileExistsError:
            continue
        except OSError as fault:
            raise BadInput([Fault(str(folder), 0, f"cannot be made: {fault.strerror}")]) from None
        return Job(folder)
    raise BadInput([Fault(str(parent), 0, f"there are a thousand jobs called {base!r} already")])


def folder_name(name: str) -> str:
    """A name that every system of files takes and that cannot lead out of its folder."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    words = "".join(c if c.isalnum() else " " for c in plain).split()
    made = "-".join(words)[:LONGEST_FOLDER].strip("-") or "job"
    return f"job-{made}" if made in _DEVICES else made
