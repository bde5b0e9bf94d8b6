"""Random lines for the line protocol: noise, JSON of every shape, and requests gone slightly wrong."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from random import Random

NASTY = (
    b"",
    b"   ",
    b"null",
    b"true",
    b"NaN",
    b"-Infinity",
    b"1e999",
    b"[" * 5000,
    b'{"a":' * 3000,
    b"\xff\xfe\x00",
    b"\x00",
    b'"\\ud800"',
    b'"\\u0000"',
    b'""',
    b'{"text": ""}',
    b'{"text": "\\u001b[2J"}',
    b'{"reading": 1e999}',
    b'{"reading": NaN}',
    b'{"reading": true}',
    b'{"reading": ' + b"9" * 4000 + b"}",
    b'{"reading": ' + b"9" * 400 + b"}",
    b'{"reading": -1e308, "unit": "K"}',
    b'{"reading": 1e308, "unit": "bar", "quantity": "nonsense"}',
    b'{"outcome": 0}',
    b'{"outcome": -1}',
    b'{"outcome": 1.0}',
    b'{"outcome": null}',
    b'{"outcome": {"id": 1}}',
    b'{"word": "", "argument": ""}',
    b'{"word": "change", "argument": "\\u0000"}',
    b'{"word": "note", "argument": "' + b"x" * 5000 + b'"}',
    b'{"text": "a", "outcome": 1}',
    b'{"text": "a", "text": 3}',
    b'"' + "冷ж\u202e😀".encode() + b'"',
    b"'single'",
    b'{"text": "/"}',
    b'{"text": "/ /"}',
    b'{"text": "9999999999999999999999999999 psi"}',
)
WORDS = (
    "gas",
    "leak",
    "it",
    "drips",
    "70 psi",
    "no",
    "yes",
    "not sure",
    "barrel 2",
    "-5 C",
    "tank",
    "foam",
    "/why",
    "1",
)
SLASH = (
    "why",
    "back",
    "facts",
    "causes",
    "help",
    "cannot",
    "note",
    "change",
    "skip",
    "handover",
    "where",
    "what",
)


def random_line(random: Random) -> bytes:
    """Return one line without its line feed: about half of them sound requests."""
    makers = (_noise, _nasty, _json, _words, _words, _outcome, _outcome, _reading, _word)
    return random.choice(makers)(random).replace(b"\n", b" ")


def _noise(random):
    return random.randbytes(random.randrange(1, 60))


def _nasty(random):
    return random.choice(NASTY)


def _json(random):
    return json.dumps(_value(random, 3)).encode()


def _value(random, depth):
    if depth and random.random() < 0.5:
        keys = ("text", "outcome", "reading", "unit", "quantity", "word", "argument", "x")
        return {random.choice(keys): _value(random, depth - 1) for _ in range(random.randrange(3))}
    return random.choice((None, True, -1, 2, 1e300, "psi", "yes", [], [1], {}))


def _words(random):
    text = " ".join(random.choice(WORDS) for _ in range(random.randrange(1, 6)))
    return json.dumps(text if random.random() < 0.5 else {"text": text}).encode()


def _outcome(random):
    return json.dumps({"outcome": random.choice((1, 1, 2, 3, 9, "yes", "no", "unsure", "cannot"))}).encode()


def _reading(random):
    unit = random.choice(("psi", "bar", "C", "F", "kg", "furlong", ""))
    return json.dumps(
        {"reading": random.choice((random.uniform(-50, 200), 0, -0.0, 10**30)), "unit": unit}
    ).encode()


def _word(random):
    word = random.choice((*SLASH, "nonsense"))
    return json.dumps({"word": word, "argument": random.choice(("", "1", "barrel", "technician"))}).encode()
