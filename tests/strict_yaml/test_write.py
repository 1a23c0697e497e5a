"""What is written reads back as it was, whatever text is in it."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from advisor.strict_yaml import plain, tree_of_text, written

# Control characters are refused by the reader, in a sheet as in what is written.
text = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs", "Zl", "Zp"]), max_size=20)
trees = st.dictionaries(
    text,
    st.recursive(text, lambda leaf: st.lists(leaf, max_size=3) | st.dictionaries(text, leaf, max_size=3)),
    min_size=1,
    max_size=4,
)


@given(trees)
def test_reads_back_as_it_was(tree):
    assert plain(tree_of_text(written(tree), "")) == tree


def test_words_are_written_as_people_write_them():
    tree = {"built": "1958", "shared": "yes", "lines": [{"slope": "1:40", "pipe": "12 ft 6 in"}]}
    lines = ["built: 1958", "shared: yes", "lines:", "  - slope: 1:40", "    pipe: 12 ft 6 in", ""]
    assert written(tree) == "\n".join(lines)
