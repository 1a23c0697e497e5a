"""A file that the user asked for: whole or not there, and never in place of another one unasked."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from itertools import count
from pathlib import Path

from advisor.errors import BadInput, Fault


def write_out(path: Path, data: bytes, force: bool) -> None:
    """Write a file; raises BadInput where it is there already (unless forced) or cannot be written.

    It is written under another name and then renamed, so that a full disk leaves what was there.
    """
    if path.is_dir():
        raise BadInput([Fault(str(path), 0, "this is a folder; expected the name of a file to write")])
    if path.exists() and not force:
        raise BadInput([Fault(str(path), 0, "it is there already; choose another name, or add --force")])
    made = ""
    try:
        handle, made = tempfile.mkstemp(prefix=".new-", dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(made, 0o666 & ~_umask())
        os.replace(made, path)
    except OSError as fault:
        if made:
            with suppress(OSError):
                os.unlink(made)
        raise BadInput([Fault(str(path), 0, f"cannot be written: {fault.strerror}")]) from None


def keep_beside(path: Path) -> Path:
    """A copy of a file under the next free name beside it, `site.before-1.yaml`; raises BadInput."""
    copy = next(p for n in count(1) if not (p := path.with_stem(f"{path.stem}.before-{n}")).exists())
    write_out(copy, path.read_bytes(), force=False)
    return copy


def _umask() -> int:
    """The rights that new files are not given; it can be read only by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
