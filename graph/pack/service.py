"""What a machine needs though nothing is wrong with it: work that falls due again and again."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from graph.pack.terms import Id, Model, Positive, Role, Text


class Service(Model):
    """One piece of regular work on one component; the site's local code goes before the interval."""

    ref: str = ""
    title: Text
    component: Id
    days: Positive  # overdue when it was done longer ago than this
    from_days: Positive | None = None  # due from here on; without it, when `days` are over
    also: str = ""  # what calls for it earlier, or goes before the interval
    by: Annotated[tuple[Role, ...], Field(min_length=1)]  # whose work it is
    remedies: tuple[Id, ...] = ()  # repairs after which it counts as done
    source: Id = "common_practice"
