"""Built-in demo sites and kit: invented houses, used by the README and the tests."""

from pathlib import Path

SHEETS = Path(__file__).resolve().parent / "sheets"
MAIN = SHEETS / "basement-house.yaml"
ALL = (MAIN, SHEETS / "slab-house.yaml", SHEETS / "row-house.yaml")
KIT = SHEETS / "kit.yaml"
