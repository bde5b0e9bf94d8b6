"""One JSON value a line, as bytes: how records and the line protocol are written and read.

Plain UTF-8 with letters of every script readable; what would steer a terminal or cannot be encoded
is escaped. Numbers are finite; reading refuses NaN, Infinity and nesting too deep, in one sentence.
"""

from __future__ import annotations

import json

from assistant.visible import STEERING


class NotJson(ValueError):
    """The bytes are no JSON value; the message is one sentence."""


def dumps(value: object) -> bytes:
    """Return a JSON value as one line of UTF-8, with its line feed."""
    text = json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(", ", ": "))
    return STEERING.sub(lambda found: f"\\u{ord(found[0]):04x}", text).encode() + b"\n"


def loads(line: bytes) -> object:
    """Return the JSON value of a line; raise NotJson with what is wrong with it."""
    try:
        value: object = json.loads(line.decode(), parse_constant=_refuse)
    except NotJson:
        raise
    except UnicodeDecodeError as error:
        raise NotJson(f"byte {error.start + 1} is not UTF-8") from error
    except json.JSONDecodeError as error:
        raise NotJson(f"not JSON at character {error.pos + 1} ({error.msg})") from error
    except RecursionError as error:
        raise NotJson("brackets are nested too deep") from error
    except ValueError as error:  # an integer of thousands of digits
        raise NotJson("a number has too many digits") from error
    return value


def _refuse(constant: str) -> object:
    raise NotJson(f"{constant} is no JSON number")
