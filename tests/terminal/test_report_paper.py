"""The paper of a report: that of the region as on the card, or the one asked for."""

from __future__ import annotations

import pytest
from pypdf import PdfReader

from advisor.cli import main
from tests.push.test_marks import HOUSE
from tests.push.test_report import TASK

# PDF points: ANSI letter is 8-1/2 by 11 in, ISO 216 A4 is 210 by 297 mm; a point is 1/72 in.
LETTER, A4 = (612, 792), (210 / 25.4 * 72, 297 / 25.4 * 72)


@pytest.mark.parametrize(
    ("region", "asked", "expected"),
    [
        ("north america", (), LETTER),
        ("britain", (), A4),
        ("north america", ("--paper", "a4"), A4),
        ("britain", ("--paper", "letter"), LETTER),
        ("north america", ("--units", "metric"), LETTER),
    ],
)
def test_the_paper_is_that_of_the_region_or_the_one_asked_for(
    region, asked, expected, tmp_path, monkeypatch, capsys
):
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own"))
    assert "region: north america" in HOUSE
    (tmp_path / "site.yaml").write_text(HOUSE.replace("region: north america", f"region: {region}") + TASK)
    with pytest.raises(SystemExit) as ended:
        main(["report", str(tmp_path), "--worlds", "100", *asked])
    assert ended.value.code in (0, None), capsys.readouterr().err
    pages = PdfReader(tmp_path / "report.pdf").pages
    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(expected, abs=0.5)
