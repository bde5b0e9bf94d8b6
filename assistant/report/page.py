"""A document as one self-contained HTML page that prints well.

Texts reach the page only through the template's autoescape, with their control characters made visible.
"""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from jinja2 import Environment, FunctionLoader, StrictUndefined
from markupsafe import Markup

from assistant.visible import visible

if TYPE_CHECKING:
    from assistant.report.document import Document

TEMPLATE = "paper.html"


def page(document: Document) -> str:
    """Return a document as an HTML page."""
    return _environment().get_template(TEMPLATE).render(document=document)


@cache
def _environment() -> Environment:
    return Environment(
        autoescape=True,
        undefined=StrictUndefined,
        loader=FunctionLoader(_source),
        finalize=_shown,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _source(name: str) -> str:
    return files("assistant").joinpath("templates", name).read_text(encoding="utf-8")


def _shown(value: object) -> object:
    """Return a text with its control characters written out; what is markup already stays."""
    if isinstance(value, Markup) or not isinstance(value, str):
        return value
    return visible(value, keep="\n")
