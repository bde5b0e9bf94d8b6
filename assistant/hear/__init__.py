"""Understanding people: `hear` turns a typed line into facts, with a `Phrasebook` built once per machine."""

from __future__ import annotations

from assistant.hear.hear import hear
from assistant.hear.phrasebook import Phrasebook

__all__ = ["Phrasebook", "hear"]
