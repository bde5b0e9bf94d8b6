"""Random lines against the real conversation, every answer held against the protocol's schema."""

from __future__ import annotations

import json
from collections import Counter
from itertools import cycle
from typing import TYPE_CHECKING

import jsonschema
from random_lines import random_line
from stand_in import FakeClock, ListBook

from assistant.engine.events import Began
from assistant.lines import LineTalk
from assistant.lines_schema import LINES_SCHEMA
from assistant.session import Desk, opened

if TYPE_CHECKING:
    from random import Random

    from assistant.conversation import Conversation

ANEW = 1 / 150  # chance that a session is left and another begun
ANEW_CLOSED = 1 / 5  # the same where it is over
OUTPUT = jsonschema.Draft202012Validator({**LINES_SCHEMA, "anyOf": [{"$ref": "#/$defs/output"}]})


class Forgetful(ListBook):
    """A book that keeps nothing; codec and record have tests of their own."""

    def keep(self, shown, failed=""):
        """Turn the page."""


def fuzz(conversation: Conversation[object], lines: int, random: Random) -> dict[str, int]:
    """Return how many objects of each kind answered so many random lines."""
    said: Counter[str] = Counter()
    roles = cycle(("", *conversation.roles()))
    out: list[bytes] = []
    talk = LineTalk(Desk(conversation, Forgetful(), FakeClock()), out.append)
    session = None
    for _ in range(lines):
        if session is None or random.random() < ANEW or (session.closed and random.random() < ANEW_CLOSED):
            session = talk.desk.move(opened(conversation), Began(role=next(roles), site="Pier Lantern"))
        line = random_line(random)
        talk, session = talk.take(session, line) if line.strip() else (talk, session)
        assert out or not line.strip(), f"no answer to {line!r}"
        for answer in map(json.loads, out):
            OUTPUT.validate(answer)
            said[answer["kind"]] += 1
        out.clear()
    return dict(sorted(said.items()))
