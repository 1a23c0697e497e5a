"""Files made worse at random: what people, editors and bad disks do to text; seeded, so always the same."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

# What has hurt readers of YAML and of quantities before, and what hurts terminals.
SPLINTERS = (
    "-1 ft", "0 ft", "1e9 m", "nan", "inf", "-inf", "1/0 in", "99999999999999999999", "0,75 in",
    "1/4 in per ft", "3:00", "no", "on", "010", "~", "null", "true", "[", "]", "{", "}", "&a", "*a",
    "!!python/object:os.system", "|", ">", "#", "---", "...", ": ", "- ", "<<: *a", "'", '"', "\\", "\t",
    "\x1b[2J", "\u202e", "\u200b", "\x00", "\ud83d", "½", "unknown", "assumed 3 ft", "assumed",
    "20 to 10 ft", "about", "½ ft", "\r\n", "\u2028", "=1+1", "%s", "{0}", "{passage.name}", "../..",
    "a" * 300, "  " * 30 + "x: y", "yes", "kind", "size", "4 in", "wye", "house drain",
)  # fmt: skip


def mutants(texts: list[str], count: int, seed: int) -> Iterator[str]:
    """`count` texts, each one of the given with one or two wounds."""
    luck = Random(seed)
    for _ in range(count):
        text = luck.choice(texts)
        for _ in range(luck.randint(1, 2)):
            text = _wounded(text, luck)
        yield text


def _wounded(text: str, luck: Random) -> str:
    lines = text.split("\n")
    at, other = luck.randrange(len(lines)), luck.randrange(len(lines))
    wound = luck.randrange(9)
    if wound == 0:
        del lines[at]
    elif wound == 1:
        lines.insert(at, lines[other])
    elif wound == 2:
        lines[at], lines[other] = lines[other], lines[at]
    elif wound == 3:
        lines[at] = " " * luck.randrange(12) + lines[at].lstrip()
    elif wound == 4:
        key, colon, _ = lines[at].partition(": ")
        lines[at] = key + colon + luck.choice(SPLINTERS)
    elif wound == 5:
        words = lines[at].split(" ")
        words[luck.randrange(len(words))] = luck.choice(SPLINTERS)
        lines[at] = " ".join(words)
    elif wound == 6:
        place = luck.randrange(len(lines[at]) + 1)
        lines[at] = lines[at][:place] + luck.choice(SPLINTERS) + lines[at][place:]
    elif wound == 7:
        lines = lines[: at + 1]
    else:
        place = luck.randrange(len(text) + 1)
        return text[:place] + chr(luck.choice((*range(32, 127), 0xA0, 0x2028, 0xFFFD))) + text[place + 1 :]
    return "\n".join(lines)
