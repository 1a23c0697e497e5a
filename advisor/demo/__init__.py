"""Built-in demo sites and kit: invented houses, used by the README and the tests."""

from importlib.resources import files
from pathlib import Path

SHEETS = Path(str(files("advisor.demo"))) / "sheets"
MAIN = SHEETS / "basement-house.yaml"
ALL = (MAIN, SHEETS / "slab-house.yaml", SHEETS / "row-house.yaml")
KIT = SHEETS / "kit.yaml"
