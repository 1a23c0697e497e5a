"""The user's own folder: the truck's kit, what was learned, how practice stands."""

from __future__ import annotations

import os
from pathlib import Path

NAME = "push-advisor"
MOVED = "PUSH_ADVISOR_HOME"  # an environment variable that puts the folder elsewhere


def own_folder() -> Path:
    """Where the user's own files are kept; it need not be there yet."""
    told = os.environ.get(MOVED)
    if told:
        return Path(told)
    from platformdirs import user_config_path

    return user_config_path(NAME, appauthor=False)


def kit_later() -> Path:
    """A file that stands there once somebody put off telling the kit, so that it is offered once only."""
    return own_folder() / "kit-later"


def own_kit() -> Path | None:
    """The kit sheet of the truck, once there is one."""
    kit = own_folder() / "kit.yaml"
    return kit if kit.is_file() else None
