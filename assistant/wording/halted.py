"""What is answered to other words while all is stopped: questions get the answer that fits a danger.

The rule: nothing is answered as if work went on. What holds is said with every answer, and who can call the
danger over; nobody is refused what the caution itself orders.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.wording.dangers import entitled, hold, names_one, whose_word
from assistant.wording.pieces import lower, stop, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Caution

# What the caution orders, or nearly: to get out, to ring for help, to shut the place.
_HELPS = re.compile(
    r"\b(ring|call|phone|ambulance|fire (brigade|service)|evacuate|leave|first aid|from outside"
    r"|go (home|outside)|get (\w+ )?out|clear the|close (up|the|down)|have to close|lock up"
    r"|shut (up shop|the (foyer|shop|doors?))|keep (them|people|everyone|everybody|customers) out"
    r"|stop (serving|selling)|what (do|should|shall|can|must) (i|we) do|what now|and now"
    r"|anything else|what else)\b"
)
_WHEN = re.compile(
    r"\b(when|how (long|soon|much (longer|time)|many (minutes|hours))|what time|will it be|be long"
    r"|any idea)\b|\b(today|tonight|tomorrow)\b.*\?|\b(open|reopen|start|carry on|go on) again\b"
)
_TELL = re.compile(
    r"\bwhat (do|should|shall|can|must|to|will) ?(i|we)? (tell|say)"
    r"|\bwhat about (the |my |our )?(customers|guests|public|manager|boss|queue)\b"
)
_DEEDS = (
    r"\b(go|get|come|nip|pop|run|look|check|enter|in|inside|back|serve|sell|use|pour|drink|taste|clean"
    r"|mop|wipe|touch|switch|turn|open|shut|close|fix|reset|restart|start|move|fetch|grab|finish"
    r"|carry on|go on|try|see|sort|do (it|that|this))\b"
)
_HOW_BAD = re.compile(
    rf"^(?!.*{_DEEDS})(is|are|am|how|isn't|isnt|could|can|would|will)\b.*\b(danger\w*|safe|serious|bad|risky?"
    r"|harm\w*|poison\w*|explode|catch fire|kill|deadly|ok|okay|all right|alright)\b"
)
# Somebody asks whether they may do something, or says that they will.
_MAY_DO = re.compile(
    rf"^(?=.*{_DEEDS}).*("
    r"\b(can|could|may|might|shall|should|do) (i|we|he|she|they|someone|somebody|anyone|one of us|my)\b"
    r"|\b(ok|okay|alright|all right|fine|safe|allowed) (to|if)\b"
    r"|\b(i|we|he|she|they|someone|somebody|my \w+)('ll| will|'m going|'re going| want|ll|m going)\b"
    r"|\b(let me|gonna|going to|want to|need to|have to|quickly|nip|pop|just go)\b)"
)
_ASKS = re.compile(
    r"(what|which|why|who|whos|who's|whats|what's|how|when|where)\b"
    r"|(do|does|did|can|could|is|are|should|shall|will|must|may)"
    r" (i|we|you|they|it|he|she|that|this|there|the|my|our|some(body|one)|any(body|one))\b"
)


# The first that fits is the answer; `{do}` is what the cautions order, `{holds}` and `{who}` as below.
_ANSWERS = (
    (_HELPS, "What is to be done now: {do} {holds}"),
    (_TELL, "Tell them that it stays shut until one of these says that it is safe: {who}. {holds}"),
    (_WHEN, "Nobody can say yet. Nothing goes on before one of these says that it is safe: {who}. {holds}"),
    (_HOW_BAD, "Take it as dangerous until one of these says that it is safe: {who}. {holds}"),
    (_MAY_DO, "No. {holds}"),
)
_ELSE = "That has to wait until one of these says that it is safe: {who}. {holds}"
_COME = "Good. Leave it to them, and tell me once they say that it is safe. {holds}"


def while_halted(cautions: Sequence[Caution], words: str) -> Tell:
    """Return the answer to other words while all is stopped; to wanting to do something, a plain no.

    What a caution itself orders (to get out, to ring for help) is not refused but said again, with what
    holds: "shall I go in and get him out" is both.
    """
    said = " ".join(words.casefold().replace("\u2019", "'").split())
    fitting = (answer for pattern, answer in _ANSWERS if pattern.search(said))
    answer = _COME if _come(cautions, said) else next(fitting, _ELSE)
    return tell(
        "safety",
        answer.format(
            do=" ".join(stop(caution.do) for caution in cautions),
            who="; ".join(dict.fromkeys(whose_word(caution) for caution in cautions)),
            holds=holding(cautions),
        ),
    )


def asks_in_danger(words: str) -> bool:
    """Return whether a line asks something, so that it says of nobody that it is safe."""
    said = words.casefold().strip()
    return said.endswith("?") or bool(_ASKS.match(said))


def _come(cautions: Sequence[Caution], said: str) -> bool:
    """Return whether somebody who may call the danger over is said to be there."""
    there = re.search(r"\b(here|arrived|turned up|on site|inside|just come|come now)\b", said)
    names = (name for caution in cautions for name in entitled(caution))
    return there is not None and any(names_one(name, said) for name in names)


def holding(cautions: Sequence[Caution]) -> str:
    """Return what holds until the danger is called over."""
    return " ".join(dict.fromkeys(stop(hold(caution)) for caution in cautions))


def still_holds(cautions: Sequence[Caution]) -> Tell:
    """Return what holds all the same, beside where a thing is or what it is."""
    return tell("safety", f"But for now: {lower(holding(cautions))}")
