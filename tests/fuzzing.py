"""Random lines against the real conversation, every answer held against the protocol's schema."""

from __future__ import annotations

import json
from collections import Counter
from itertools import cycle
from typing import TYPE_CHECKING

import jsonschema
from random_lines import random_line
from stand_in import FakeClock, ListBook

from assistant.conversation import Setup
from assistant.engine.events import Began
from assistant.lines import LineTalk
from assistant.lines_schema import LINES_SCHEMA
from assistant.live import Live
from assistant.session import Desk, opened

if TYPE_CHECKING:
    from random import Random

LINES_A_SESSION = 200


def fuzz(lines: int, random: Random) -> dict[str, int]:
    """Return how many objects of each kind answered so many random lines."""
    output = jsonschema.Draft202012Validator({**LINES_SCHEMA, "anyOf": [{"$ref": "#/$defs/output"}]})
    conversation, said = Live.of(Setup()), Counter()
    roles = cycle(("", *conversation.roles()))
    out: list[bytes] = []
    for number in range(lines):
        if number % LINES_A_SESSION == 0:
            talk = LineTalk(Desk(conversation, ListBook(), FakeClock()), out.append)
            session = talk.desk.move(opened(conversation), Began(role=next(roles), site="Pier Lantern"))
        line = random_line(random)
        session = talk.take(session, line) if line.strip() else session
        answers = [json.loads(each) for each in out]
        out.clear()
        assert answers or not line.strip(), f"no answer to {line!r}"
        for answer in answers:
            output.validate(answer)
            said[answer["kind"]] += 1
    return dict(sorted(said.items()))
