"""Why the plan leaves an opening out is told before the gear is chosen only where no gear goes in."""

from __future__ import annotations

import pytest

from advisor.result.before import ruled_out
from tests.cases.jobs import studied

SITE = """
site: invented
region: north america
lines:
  - line: drain
    size: 4 in
    material: pvc
    pieces:
      - {opening: plug, kind: end cleanout, size: 2 in}
      - pipe: 20 ft
      - end: public sewer
task: {look at: drain, complaint: {holding: no, chemicals: no}}
"""
HEADS = {
    "thick": "{head: thick head, diameter: 3 in, length: 3 in, nose: round}",
    "thin": "{head: thin head, diameter: 1 in, length: 1-1/2 in, nose: round}",
}


def kit(*heads: str) -> str:
    return f"""
kit: van
heads: [{", ".join(HEADS[each] for each in heads)}]
springs: [{{spring: soft, feel: soft}}]
rods: [{{rod: small reel, like: small reel}}]
"""


@pytest.mark.parametrize(
    ("heads", "out"), [(("thick",), True), (("thick", "thin"), False), (("thin", "thick"), False)]
)
def test_an_opening_is_left_out_only_where_no_head_of_the_kit_goes_in(heads, out):
    """A head of 3 in goes through no hole of 2 in, one of 1 in does."""
    assert (ruled_out(studied(SITE, kit(*heads), 50), "plug") is not None) is out
