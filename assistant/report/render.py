"""A document in the form that is wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assistant.report.document import Document


def rendered(document: Document, form: str) -> str:
    """Return a document as markdown, html or text."""
    if form == "html":
        from assistant.report.page import page  # noqa: PLC0415 -- brings in Jinja2

        return page(document)
    if form == "text":
        from assistant.report.plain import plain  # noqa: PLC0415 -- only what is wanted

        return plain(document)
    from assistant.report.markdown import markdown  # noqa: PLC0415 -- likewise

    return markdown(document)
