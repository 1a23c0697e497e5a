"""A folder of sheets planned over the cores of the machine, in the order of their names."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from pathlib import Path

from advisor.batch.row import Planner, Row
from advisor.errors import BadInput, Fault
from advisor.job.folder import ANSWERS, KIT

CHUNK = 8  # sheets handed to a process at a time: few enough that a cut-off loses little
_planner: Planner | None = None  # one in each process


@dataclass(frozen=True)
class With:
    """What every sheet is planned with."""

    rules: Path
    kit: Path | None
    worlds: int
    seed: int

    def planner(self) -> Planner:
        """A planner of its own; raises BadInput where rules or kit are at fault."""
        return Planner(self.rules, self.kit, self.worlds, self.seed)


def sheets_in(folder: Path) -> list[Path]:
    """Every YAML file below a folder that may be a site sheet; raises BadInput where there is none."""
    if not folder.is_dir():
        raise BadInput(
            [Fault(str(folder), 0, "there is no such folder; expected one that holds site sheets")]
        )
    found = [path for path in folder.rglob("*.yaml") if path.name not in (KIT, ANSWERS)]
    if not found:
        raise BadInput([Fault(str(folder), 0, "there is no sheet in it; expected files that end in .yaml")])
    return sorted(found)


def planned(paths: Sequence[Path], folder: Path, with_what: With, cores: int) -> Iterator[Row]:
    """A row for each sheet, in their order, as they are done."""
    named = [(path, path.relative_to(folder).as_posix()) for path in paths]
    if cores == 1:
        planner = with_what.planner()
        yield from (planner.row(path, name) for path, name in named)
        return
    with ProcessPoolExecutor(cores, initializer=_begin, initargs=(with_what,)) as pool:
        try:
            yield from pool.map(_row, named, chunksize=CHUNK)
        except BrokenProcessPool:
            message = "one of the processes was killed; what is done stays, run the same command to go on"
            raise BadInput([Fault(str(folder), 0, message)]) from None


def _begin(with_what: With) -> None:
    global _planner
    _planner = with_what.planner()


def _row(named: tuple[Path, str]) -> Row:
    assert _planner is not None
    return _planner.row(*named)
