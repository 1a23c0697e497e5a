"""Where on a sheet an entry belongs, so that one in the wrong place can be told its place."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args, get_origin

from pydantic import BaseModel, Tag

from advisor.strict_yaml.names import bare, model_in

_MOST = 3  # places told one by one
Way = tuple[str, ...]


def belongs(model: type[BaseModel], name: str) -> str:
    """`inside `task``: the place of an entry in words; empty where no place of the sheet has it."""
    places = list(dict.fromkeys(_places(model, name)))
    tagged = [place for place in places if place.startswith("beside")]
    if len(tagged) > _MOST:
        places = [*(place for place in places if place not in tagged), "in a piece of a line"]
    return " or ".join(places)


def _places(model: type[BaseModel], name: str) -> Iterator[str]:
    for way in _ways(model, name, ()):
        yield _words(way)


def _ways(place: Any, name: str, way: Way) -> Iterator[Way]:
    """The entries on the way to each place that has the name; `*` is a list, `=opening` a kind of piece."""
    kind, plain = model_in(place), bare(place)
    if kind is not None:
        fields = [(field.alias or own, field.annotation) for own, field in kind.model_fields.items()]
        yield from (way for entry, _ in fields if entry == name)
        for entry, inside in fields:
            yield from _ways(inside, name, (*way, entry))
    elif get_origin(plain) in (tuple, list):
        yield from _ways(get_args(plain)[0], name, (*way, "*"))
    else:
        for member in get_args(plain):
            for mark in getattr(member, "__metadata__", ()):
                if isinstance(mark, Tag):
                    yield from _ways(member, name, (*way, f"={mark.tag}"))


def _words(way: Way) -> str:
    if not way:
        return "at the top of the sheet"
    if way[-1].startswith("="):
        return f"beside `{way[-1][1:]}`"
    if way[-1] == "*":
        return f"in an entry of `{way[-2]}`"
    return "inside " + " in ".join(f"`{entry}`" for entry in reversed(_below_pieces(way)))


def _below_pieces(way: Way) -> Way:
    """The entries that are told: of those of a piece none above it."""
    kinds = [number for number, step in enumerate(way) if step.startswith("=")]
    return tuple(step for step in way[kinds[-1] + 1 if kinds else 0 :] if step != "*")
