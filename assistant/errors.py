"""Everything `assistant` raises on purpose.

* AssistantError        one sentence: what is wrong, where, what to do; ends the command with 1
  - WrongUse            the command was called wrongly; ends it with 2
  - CodecError          a stored event or effect says something that ours cannot say
  - RecordUnreadable    the session record is no record of ours, or damaged before its last line
  - RecordUnwritable    the session record cannot be written (full disk, no right, another writer)
  - SessionNotFound     no session record of that name, or more than one; ends the command with 2

What a person types in a conversation is never an error of this tree.
"""

from __future__ import annotations


class AssistantError(Exception):
    """The base of every error that this package raises on purpose."""

    exit_code = 1


class WrongUse(AssistantError):
    """The command was called wrongly."""

    exit_code = 2


class CodecError(AssistantError):
    """A stored event or effect says something that ours cannot say."""


class RecordUnreadable(AssistantError):
    """The file is no session record that we can read."""


class RecordUnwritable(AssistantError):
    """The session record cannot be written."""


class SessionNotFound(AssistantError):
    """There is no session record of that name, or more than one."""

    exit_code = 2
