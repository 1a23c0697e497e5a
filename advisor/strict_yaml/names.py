"""Which entries a model allows at a place, so that a misspelt one can be told the nearest."""

from __future__ import annotations

from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, Tag


def entry_names(model: type[BaseModel], path: tuple[str | int, ...]) -> list[str]:
    """The entries that may stand beside the last step of a pydantic error path; empty if unknown."""
    place: Any = model
    for step in path[:-1]:
        place = _inside(place, step)
    kind = model_in(place)
    return [field.alias or name for name, field in kind.model_fields.items()] if kind else []


def _inside(place: Any, step: str | int) -> Any:
    """The annotation that one step of the path leads to."""
    tagged = _tagged(place, step)
    if tagged is not None:
        return tagged
    kind = model_in(place)
    if kind is not None:
        fields = kind.model_fields.items()
        return next((field.annotation for name, field in fields if (field.alias or name) == step), None)
    place = bare(place)
    arguments = get_args(place)
    if get_origin(place) in (tuple, list) and isinstance(step, int):
        return arguments[0]
    if get_origin(place) is dict:
        return arguments[1]
    return None


def _tagged(place: Any, step: str | int) -> Any:
    """The member of a tagged union that carries the tag `step`."""
    for member in get_args(bare(place)):
        if any(isinstance(mark, Tag) and mark.tag == step for mark in getattr(member, "__metadata__", ())):
            return member
    return None


def model_in(place: Any) -> type[BaseModel] | None:
    """The one model that an annotation stands for, optional or not."""
    place = bare(place)
    if isinstance(place, type) and issubclass(place, BaseModel):
        return place
    if get_origin(place) in (Union, UnionType):
        models = [kind for kind in map(model_in, get_args(place)) if kind]
        return models[0] if len(models) == 1 else None
    return None


def bare(place: Any) -> Any:
    """An annotation without its remarks."""
    while get_origin(place) is Annotated:
        place = get_args(place)[0]
    return place
