"""`barrelside pack`: what an author does with a knowledge pack, one module a command."""

from __future__ import annotations

from assistant.lazy_group import LazyGroup

command = LazyGroup("pack", home=__name__, help="Check, measure and explain a knowledge pack.")
