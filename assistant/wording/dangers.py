"""What is said of danger: cautions, the safety screen, and while all is stopped."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from assistant.engine.effects import Warn
from assistant.wording.options import ENTITLED
from assistant.wording.pieces import lower, sentence, stop, tell

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.engine.effects import Tell
    from graph.machine import Caution

SAFETY_FIRST = "safety comes before anything else"
# What nobody says who has just called a danger over: not yet, on the way, asked for, a question.
_DENIAL = re.compile(
    r"\b(not|no|nobody|none|never|cannot|waiting|wait|yet|coming|on (the|its|their|his|her) way|called"
    r"|calling|rang|ring|phoned|asked|ask|should|will|later|soon|tomorrow|when|until|if|maybe|think)\b"
    r"|n't\b|\b(has|is|was|do|does|did|have|ca|wo)nt\b|\?"
)
# That somebody has come is not yet that they call it over.
_PRESENT = re.compile(
    r"\b(here|arrived|turned up|on site|inside|looking|checking|testing|measuring|working)\b"
)
_SAYS = re.compile(
    r"\b(says?|said|saying|told|tells|reckons?|confirmed|confirms|signed|cleared|clear|safe|over)\b"
)
MAKE_SAFE = "The danger comes first"


def warn(caution: Caution, *, stop: bool = False) -> Warn:
    return Warn(caution.id, caution.ref, caution.title, caution.do, caution.do_not, caution.who, stop=stop)


def look_again() -> Tell:
    return tell("safety", "This has to be clear before we go on. Please look once more, from a safe place.")


def hazard_noted() -> Tell:
    return tell("safety", "I take it as not cleared. Keep to the caution; whoever comes next will see it.")


def safety_stays() -> Tell:
    return tell("refused", "Safety questions can't be skipped. If you don't know, say so.")


def ask_safe(cautions: Sequence[Caution]) -> str:
    names = "; ".join(lower(caution.title) for caution in cautions)
    who = "; ".join(dict.fromkeys(whose_word(caution) for caution in cautions))
    return f"We stop here: {names}. Is it safe now? That is for these to say: {who}."


def ask_safe_by(caution: Caution) -> str:
    """Return the question who calls a danger over; nobody at the questions can do that alone."""
    return f"Who says that it is safe ({_topic(caution)})? Give the name too, if you have it."


def _topic(caution: Caution) -> str:
    """Return what a caution is about, without what is to be done."""
    return lower(caution.title.partition(":")[0])


def still_halted(cautions: Sequence[Caution]) -> Tell:
    who = "; ".join(dict.fromkeys(whose_word(caution) for caution in cautions))
    holds = " ".join(dict.fromkeys(stop(hold(caution)) for caution in cautions))
    text = f"Until then: {holds} If anyone is unwell, ring the emergency number."
    return tell("safety", f"{text} Tell me when one of these says that it is safe: {who}.")


def hold(caution: Caution) -> str:
    return caution.hold or caution.do_not or caution.do


def not_entitled(caution: Caution) -> Tell:
    who = whose_word(caution)
    return tell("safety", f"That is not for you or me to say. One of these must: {who}. Until then we wait.")


def whose_word(caution: Caution) -> str:
    return lower(caution.who.rstrip(".")) or "somebody whose work that is"


def safe_again(who: str) -> Tell:
    text = f"Good. I keep who says so: {lower(who)}. We go on. If anything changes, say so at once."
    return tell("safety", text)


def one_over(who: str, left: Sequence[Caution]) -> Tell:
    """Return that one danger is called over, and which are not."""
    return tell(
        "safety", f"Good. I keep who says so: {lower(who)}. That leaves: {'; '.join(map(_topic, left))}."
    )


def secured(ordered: str) -> Tell:
    return tell("safety", f"Good, I keep that it is done: {stop(ordered)}")


def not_secured(ordered: str, holds: Sequence[str] = ()) -> Tell:
    """Return what holds while an order is not carried out: `holds`, what its cautions say of that."""
    apart = "Then keep well clear of it, keep others away, and leave it to whoever comes."
    text = " ".join(each for each in holds if each) or apart
    return tell("safety", f"{text} I note it as not done: {stop(ordered)}")


def order_kept(ordered: str, done: str) -> Tell:
    """Return an order that an answer gave at once, with whether it was carried out."""
    return tell("facts", f"{'Done' if done == 'yes' else 'Not confirmed as done'}: {stop(ordered)}")


def entitled(caution: Caution) -> tuple[str, ...]:
    """Return whom a caution names, one by one: those who may call its danger over."""
    parts = re.split(r"[,;]|\bor\b|\band\b", caution.who.rstrip("."))
    names = (re.sub(r"^(a|an|the)\s+", "", part.strip(), flags=re.IGNORECASE) for part in parts)
    return tuple(dict.fromkeys(sentence(name) for name in names if name))


def option_id(name: str) -> str:
    """Return the id under which somebody named by a caution is picked."""
    return re.sub(r"\W+", "_", name.casefold()).strip("_")


def names_one(name: str, words: str) -> bool:
    """Return whether some words name a person or office, in its own words or everyday ones."""
    said = f" {' '.join(re.findall(r'[a-z0-9]+', words.casefold()))} "
    known = (name.casefold(), *ENTITLED.get(name.casefold(), ()))
    return any(f" {each} " in said for each in known)


def denies(words: str) -> bool:
    """Return whether some words leave open whether anybody has called it safe: then nobody has."""
    said = words.casefold()
    return bool(_DENIAL.search(said)) or bool(_PRESENT.search(said) and not _SAYS.search(said))


def not_in_danger() -> Tell:
    return tell("refused", "Not while there is danger. You can say that it is safe, hand over, note or stop.")


def danger_reasons(complaint: str) -> tuple[str, ...]:
    told = (f"The complaint was: {complaint}",) if complaint else ()
    return ("A danger was reported and has not been cleared.", *told)
