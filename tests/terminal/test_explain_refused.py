"""A refusal of `advisor explain` says in whose house it was looked for where no site was named."""

from __future__ import annotations

import pytest

from advisor import demo
from tests.terminal.test_explain_command import run

WHOSE = "the built-in demo house, Larkspur Court, house 7. For your own: --site JOB."


@pytest.mark.parametrize(
    "asked", [("how", "back chamber"), ("why-not", "back chamber"), ("what-if", "no such line=3")]
)
def test_without_a_site_a_refusal_names_the_demo_house(asked, capsys):
    code, _, err = run(capsys, "explain", *asked)
    assert code == 2
    assert err.count(WHOSE) == 1
    code, _, err = run(capsys, "explain", *asked, "--site", demo.MAIN)
    assert code == 2
    assert "demo house" not in err, "his own sheet, as he named it"
