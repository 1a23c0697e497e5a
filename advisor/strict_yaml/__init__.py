"""YAML read strictly: every scalar stays text, every fault carries its file and line."""

from advisor.strict_yaml.mend import read_on
from advisor.strict_yaml.model import Sheet, grown, plain, read_sheet, sheet_of_text, sheet_of_tree
from advisor.strict_yaml.tree import Branch, Leaf, Node, Twigs, read_text, tree_and_twice, tree_of_text
from advisor.strict_yaml.write import scalar, written

__all__ = [
    "Branch",
    "Leaf",
    "Node",
    "Sheet",
    "Twigs",
    "grown",
    "plain",
    "read_on",
    "read_sheet",
    "read_text",
    "scalar",
    "sheet_of_text",
    "sheet_of_tree",
    "tree_and_twice",
    "tree_of_text",
    "written",
]
