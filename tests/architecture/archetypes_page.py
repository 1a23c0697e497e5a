"""docs/archetypes.md: every typical building, and what its sheet rests on."""

from __future__ import annotations

from advisor.archetype import archetypes
from advisor.tables.load import Tables
from tests.architecture.made_page import MADE, RULES, table


def archetypes_page(tables: Tables) -> str:
    """Every typical building, and what its sheet rests on."""
    text = (
        f"# Typical buildings\n\n{MADE}Each is a site sheet in `rules/archetypes` of which nothing was seen: "
    )
    text += (
        "every value is assumed, with a range, until somebody knows. The share of the region's buildings\n"
    )
    text += "is rough; where nobody knows what building it is, the most usual of its year is drawn.\n"
    found = archetypes(RULES, tables)
    for region in dict.fromkeys(each.region for each in found):
        rows = (
            (
                each.name,
                f"{each.first_year} to {each.last_year or 'today'}",
                f"{each.share:.0%}",
                each.known_by,
                each.evidence.grade.words,
                " ".join(f"{fact.says} ({fact.evidence.grade.words})" for fact in each.facts),
            )
            for each in found
            if each.region == region
        )
        head = "building, built, share, known by, lengths and fittings, facts"
        text += f"\n## {region}\n\n" + table(head, rows)
    return text
