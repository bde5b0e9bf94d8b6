r"""Text as typed, made safe to show: what would steer the terminal stands there as letters.

Escape sequences, bells, carriage returns and marks that turn the writing direction are shown as
`\x1b`, `\x07`, `\u202e`; letters of every script stay as they are.
"""

from __future__ import annotations

import re

# C0 and C1 controls, direction marks, line and paragraph separators, lone surrogates, byte order mark.
STEERING = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufeff]")
_SURROGATES = re.compile("[\ud800-\udfff]")


def visible(text: str, keep: str = "") -> str:
    """Return `text` with every steering character written out, save those in `keep`."""
    return STEERING.sub(lambda found: found[0] if found[0] in keep else _written(found[0]), text)


def without_surrogates(text: str) -> str:
    """Return `text` with every lone surrogate replaced, so that it can be written as UTF-8."""
    return _SURROGATES.sub("\ufffd", text)


def _written(character: str) -> str:
    code = ord(character)
    return f"\\x{code:02x}" if code <= 0xFF else f"\\u{code:04x}"  # noqa: PLR2004 -- one byte
