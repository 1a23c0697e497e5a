"""What nobody has said, and what was said of which one part denies the other, are told apart.

From a trial: he had said that it drains away and that the floor drain backs up, and read that
nobody had said whether the line is holding. Water that comes up stands in the line (common practice, no
source).
"""

from __future__ import annotations

from advisor.result.build import plan_of
from advisor.terminal.page import Page
from advisor.terminal.unsettled_screen import show_unsettled
from tests.cases.hazards import SMALL
from tests.cases.jobs import studied
from tests.push.sites import WALK


def test_what_was_said_and_cannot_all_be_is_not_called_unsaid():
    said = "holding: no, chemicals: no, gas smell: no"
    found = {}
    for told in (said, f"{said}, backs up: [bath]", said.replace("holding: no", "holding: unknown")):
        of, page = plan_of(studied(WALK.replace("holding: no", told), SMALL, 20)), Page()
        with page.console.capture() as shown:
            show_unsettled(of.ask, page)
        found[told] = [line.strip() for line in shown.get().splitlines()]
    sure, torn, unsaid = found.values()
    at = torn.index("SAID, BUT IT CANNOT ALL BE")
    assert torn[at + 1].startswith("- Look whether the line is holding water. If so, WARNING:")
    assert unsaid[unsaid.index("NOBODY HAS SAID") + 1].startswith("- Ask whether the line is holding water.")
    for lines, heading in ((sure, "SAID, BUT IT CANNOT ALL BE"), (unsaid, "SAID, BUT IT CANNOT ALL BE")):
        assert heading not in lines
    assert not any("holding water" in line for line in sure)
