"""The regions whose words, codes and habits differ."""

from __future__ import annotations

from typing import Annotated

from advisor.tables.entry import one_of

REGIONS = ("north america", "britain")
Region = Annotated[str, one_of(*REGIONS)]
