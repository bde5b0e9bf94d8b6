"""A conversation at a terminal: listen, move on, show; it decides nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.reply import reply
from assistant.shell_wording import cut_short
from assistant.talk.view import view_of

if TYPE_CHECKING:
    from assistant.conversation import S
    from assistant.session import Desk, Session
    from assistant.talk.terminal import Terminal

LONGEST = 4000  # characters of one answer


def converse(
    desk: Desk[S], session: Session[S], terminal: Terminal, *, to_the_end: bool = False
) -> Session[S]:
    """Return the session as it is when it closes, or when the person leaves with Ctrl-C or Ctrl-D.

    With `to_the_end` a script is told to its last line: after the end of one person's part, another
    may take over.
    """
    terminal.show(session.shown)
    try:
        while to_the_end or not session.closed:
            typed = terminal.listen(view_of(desk.conversation, session))
            if len(typed) > LONGEST:
                terminal.say(cut_short(LONGEST))
            event = reply(typed[:LONGEST], session.ask, desk.conversation)
            if event is not None:
                desk, session = desk.take(session, event)
                terminal.show(session.shown)
    except (EOFError, KeyboardInterrupt):
        return session
    return session
