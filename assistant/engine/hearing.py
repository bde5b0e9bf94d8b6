"""What an event means while a question is open: evidence, a reply, a question back, or words to keep.

The rule: danger is taken before anything else, then the reply to the open question, then everything
that was volunteered. Words that nothing was made of are kept and said to be so.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from assistant import wording
from assistant.engine import (
    aiming,
    alternatives,
    asking,
    calling,
    changing,
    confirming,
    danger,
    explaining,
    long_ago,
    looking,
    moving,
    replies,
    roles,
    slips,
    taking,
    working,
)
from assistant.engine.state import Question, Stage
from assistant.facts import REPLY_KINDS, Fact

if TYPE_CHECKING:
    from collections.abc import Callable

    from assistant.engine.effects import Effect
    from assistant.engine.events import Chose, Measured, Said
    from assistant.engine.state import State, Turn
    from graph import Case

FREE = ("site", "parts", "note", "safe_by")  # what any words answer, whatever could be understood of them
WORTH_SAYING = 2  # words left over that are worth a remark


def chose(case: Case, state: State, event: Chose) -> Turn:
    """Take an option that was picked."""
    choice = replies.picked(case, state, event.option)
    if not choice and state.open is not None and state.open.kind == "role":
        choice = event.option
    if not choice:
        return state, (wording.no_such_option(event.option),)
    return replies.reply(case, state, choice)


def measured(case: Case, state: State, event: Measured) -> Turn:
    """Take a number for the quantity named, else for the one that the open question asks for."""
    asked = slips.mistyped(case, state, event)
    if asked is not None:
        return asked
    name = event.quantity or asking.quantity_wanted(case, state)
    fact = Fact("reading", name, value=repr(event.value), unit=event.unit, words=event.text)
    if not name:
        after = taking.one_of(case, state, fact, asking.one_wanted(case, state))
        return (after, ()) if after != state else (state, (wording.no_number_wanted(),))
    after, shown = taking.take_facts(case, state, (fact,))
    if after == state and not shown:
        return state, (wording.no_such_quantity(name),)
    return replies.asked_anew(state, after), shown


def said(case: Case, state: State, event: Said) -> Turn:
    """Take a line: its reply, its evidence, its questions back, and the rest as words."""
    dangerous = any(fact.kind == "danger" for fact in event.facts)
    tellers = () if dangerous else (working.told, alternatives.told)
    worked = next((turn for tell in tellers if (turn := tell(case, state, event.text)) is not None), None)
    if worked is not None:
        return worked
    state, facts = slips.put_right(state, event.facts)
    facts = tuple(_aimed(case, state, fact) for fact in facts)
    only_asks = _only_asks(event, facts)
    if state.open is not None and state.open.kind in FREE and not only_asks:
        kept = _kept_where_free(case, state, event.text)
        facts = tuple(fact for fact in facts if fact.kind in kept)
    facts = (*facts, *_first_word(case, state, event.text, facts))
    state, facts, past = long_ago.sorted_out(case, state, facts)
    doubts = state.doubts
    state, facts = calling.resolved(case, state, facts)
    again = "" if dangerous else confirming.said_again(state.open, facts)
    if again:
        return _said_again(case, state, again, facts)
    question, taken = state.open, [bool(past) or state.doubts != doubts]
    shown: tuple[Effect, ...] = past
    for take in (_reply, _evidence, _context):
        after, more = take(case, state, facts)
        taken.append(after != state or bool(more))
        state, shown = after, (*shown, *more)
    doubted, replied, learnt, _ = taken
    if only_asks or (past and not replied and not learnt):
        more = ()
    elif question is not None and question.kind in replies.WORDS and state.open == question and not replied:
        state, more = replies.WORDS[question.kind](case, state, event.text, understood=learnt or doubted)
    elif not any(taken) or _names_role(case, state, event):
        state, more = _as_words(case, state, event)
    else:
        state, more = (state if _in_passing(state, question, facts) else _complained(state, event, facts)), ()
    state, rest = _rest(state, event, question) if any(taken) else (state, ())
    said_back = (*shown, *more, *rest)
    waits = question is not None and question.kind == "fact" and len(state.doubts) > len(doubts)
    return state, said_back or ((wording.asked_next(),) if waits else ())


def _said_again(case: Case, state: State, choice: str, facts: tuple[Fact, ...]) -> Turn:
    """Take a doubt as confirmed by being said once more, with whatever else the line tells."""
    doubts = state.open.facts if state.open is not None else ()
    state, shown = replies.reply(case, state, choice)
    state, more = _evidence(case, state, tuple(f for f in facts if not confirming.among(f, doubts)))
    return state, (*shown, *more)


def _kept_where_free(case: Case, state: State, text: str) -> tuple[str, ...]:
    """Return the kinds of facts that count where any words are an answer.

    Who calls a danger over often names it ("the fire brigade says it is out"): that tells no new one.
    """
    if state.open is None or state.open.kind != "safe_by":
        return ("danger", *REPLY_KINDS)
    return () if danger.vouched(case, state, text) else ("danger",)


def _only_asks(event: Said, facts: tuple[Fact, ...]) -> bool:
    """Return whether a line is a question back and nothing else ("why?"): then it names or tells nothing."""
    whole = replies.plain(event.text).strip("? ")
    return bool(facts) and all(f.kind == "ask" and replies.plain(f.words).strip("? ") == whole for f in facts)


def _first_word(case: Case, state: State, text: str, facts: tuple[Fact, ...]) -> tuple[Fact, ...]:
    """Return the reply that a line about a step begins with ("done, well, ..."), if it holds no other."""
    working_on = state.open is not None and state.open.kind in {"step", "guard"}
    if not working_on or any(fact.kind in REPLY_KINDS for fact in facts):
        return ()
    first = replies.plain(re.split(r"[,;.!]", text, maxsplit=1)[0])
    word = wording.everyday(first, asking.ask(case, state, state.open) if state.open is not None else None)
    return tuple(Fact(kind, words=first) for kind in REPLY_KINDS if kind == word)


def _aimed(case: Case, state: State, fact: Fact) -> Fact:
    """Return an answer or reading that names no instance, aimed at what the open question asks."""
    question = state.open
    if question is None or fact.which:
        return fact
    if fact.kind == "reading":
        wanted = asking.quantity_wanted(case, state)
        fits = wanted and fact.id in {"", case.quantity(wanted).base}
        return replace(fact, id=wanted) if fits else fact
    if fact.kind == "answer" and case.has_check(question.id):
        check = case.check(question.id)
        fits = fact.id in {"", check.base} or (check.ref and fact.ref == check.ref)
        return replace(fact, id=check.id) if fits else fact
    return fact


def _reply(case: Case, state: State, facts: tuple[Fact, ...]) -> Turn:
    """Take a plain yes, no, not sure or can't, unless danger or the answer itself is in the line."""
    question = state.open
    choice = next((fact.kind for fact in facts if fact.kind in REPLY_KINDS), "")
    if not choice or question is None or any(_more_than_reply(fact, question) for fact in facts):
        return state, ()
    said = next(fact for fact in facts if fact.kind == choice)
    if said.value == "done" and not wording.done_will_do(asking.ask(case, state, question)):
        return state, (wording.which_of_these(),)
    return replies.reply(case, state, choice)


def _more_than_reply(fact: Fact, question: Question) -> bool:
    return fact.kind == "danger" or (fact.kind == "answer" and fact.id == question.id)


def _evidence(case: Case, state: State, facts: tuple[Fact, ...]) -> Turn:
    """Take what the line tells about the machine."""
    after, shown = taking.take_facts(case, state, facts)
    return replies.asked_anew(state, after), shown


def _in_passing(state: State, question: Question | None, facts: tuple[Fact, ...]) -> bool:
    """Return whether a line answered a question about danger: what else it let fall is not the story yet."""
    if state.stage is not Stage.SAFETY or question is None:
        return False
    return any(f.kind in REPLY_KINDS or (f.kind == "answer" and f.id == question.id) for f in facts)


def _complained(state: State, event: Said, facts: tuple[Fact, ...]) -> State:
    """Return the state with the first line that tells a symptom kept as the complaint, as it was said."""
    if state.complaint or state.halts or not any(f.kind == "symptom" and f.certain for f in facts):
        return state
    return replace(state, complaint=" ".join(event.text.split()))


def _context(case: Case, state: State, facts: tuple[Fact, ...]) -> Turn:
    """Take what is no evidence: when it began, what is said to be fine, barrels, questions back."""
    shown: tuple[Effect, ...] = ()
    for fact in facts:
        take = _CONTEXT.get(fact.kind)
        if take is not None:
            state, more = take(case, state, fact, facts)
            shown = (*shown, *more)
    return state, shown


def _began(case: Case, state: State, fact: Fact, facts: tuple[Fact, ...]) -> Turn:
    del case
    when = fact.value or fact.words
    said = any(_overlap(fact, other) for other in facts if other.certain and other.kind in taking.EVIDENCE)
    return replace(state, began=when), () if said else (wording.began_noted(when),)


def _overlap(fact: Fact, other: Fact) -> bool:
    """Return whether two facts were taken from the same words, so that one is shown with the other."""
    one, two = fact.words.casefold(), other.words.casefold()
    return bool(one and two) and (one in two or two in one)


def _fine(case: Case, state: State, fact: Fact, facts: tuple[Fact, ...]) -> Turn:
    del case, facts
    words = fact.words or fact.value
    return taking.not_understood(state, words), (wording.fine_noted(words),) if words.strip() else ()


def _which(case: Case, state: State, fact: Fact, facts: tuple[Fact, ...]) -> Turn:
    barrels = fact.which or tuple(int(word) for word in re.findall(r"[0-9]{1,2}", fact.value))
    picked = calling.take_barrels(case, state, barrels) or confirming.take_barrels(case, state, barrels)
    if picked is not None:
        return picked
    if not fact.certain:
        doubt = aiming.question(case, state, barrels)
        known = doubt is None or doubt in state.doubts
        return (state, ()) if known or doubt is None else (replace(state, doubts=(*state.doubts, doubt)), ())
    told = any(other.certain for other in facts if other.kind in taking.EVIDENCE)  # shown back with those
    moved = None if told else moving.question(case, state, barrels)
    if moved is not None:
        return replace(state, open=None, doubts=(moved, *state.doubts)), ()
    return replace(state, barrels=barrels), (wording.barrels_noted(barrels),) if barrels and not told else ()


def _corrected(case: Case, state: State, fact: Fact, facts: tuple[Fact, ...]) -> Turn:
    """Ask again what was taken back, unless the line says what is right, which then stands already.

    A line that takes back only its own words leaves what was said before; one that names another barrel is
    asked about that.
    """
    if any(other.kind == "which" and moving.question(case, state, other.which) for other in facts):
        return state, ()
    if fact.value == "line" or any(other.kind in taking.EVIDENCE for other in facts):
        return state, ()
    after, shown = changing.change(case, state, fact.id)
    choice = wording.meant_instead(fact.words)
    if not choice or after.stage is not Stage.NARROWING or not after.due or after.due == state.due:
        return after, shown
    asked = replace(after, open=Question("check", after.due[0]), due=after.due[1:])
    put_right, more = replies.reply(case, asked, choice)
    return (put_right, more) if put_right.open is None else (after, shown)  # it has no such answer


def _asked_back(case: Case, state: State, fact: Fact, facts: tuple[Fact, ...]) -> Turn:
    del facts
    explain = {"where": looking.where, "what": looking.what}.get(fact.value, explaining.why)
    name = fact.id if fact.which else looking.aimed(case, state, fact.id)
    at_large = (
        () if name or state.stage is Stage.HALTED else explaining.asked_at_large(case, state, fact.words)
    )
    if at_large:
        return state, at_large
    if state.stage is not Stage.HALTED or explain is explaining.why:
        return explain(case, state, name)
    if not looking.knows(case, name):  # "what's the cause" is of no part, and has to wait
        return danger.told(case, state, fact.words, understood=False)
    state, shown = explain(case, state, name)
    return state, (*shown, *danger.reminded(case, state))


_CONTEXT: dict[str, Callable[[Case, State, Fact, tuple[Fact, ...]], Turn]] = {
    "began": _began,
    "fine": _fine,
    "which": _which,
    "correct": _corrected,
    "ask": _asked_back,
}


def _names_role(case: Case, state: State, event: Said) -> bool:
    """Return whether a line answers the question of who is there, whatever else it tells."""
    asked = state.open is not None and state.open.kind == "role"
    return asked and bool(roles.named(case.machine.roles, event.text))


def _as_words(case: Case, state: State, event: Said) -> Turn:
    """Take a line with no facts in it: an option by its name, a role, or nothing."""
    ask = asking.ask(case, state, state.open) if state.open is not None else None
    choice = replies.picked(case, state, event.text) or wording.everyday(replies.plain(event.text), ask)
    if state.open is not None and state.open.kind == "role":
        choice = choice or event.text
    if choice:
        return replies.reply(case, state, choice)
    if state.open is not None and wording.asks_how_long(event.text):
        return state, (wording.how_long(asking.ask(case, state, state.open).minutes),)
    answer = explaining.asked_at_large(case, state, event.text)
    if answer:
        return state, answer
    return taking.not_understood(state, event.text), (wording.nothing_understood(),)


def _rest(state: State, event: Said, question: Question | None) -> Turn:
    """Keep the words that nothing was made of; while listening, say so."""
    rest = " ".join(event.rest.split())
    if not rest or question is None or question.kind in FREE:
        return state, ()
    tell = question.kind == "complaint" and len(rest.split()) >= WORTH_SAYING
    return taking.not_understood(state, rest), (wording.rest_kept(rest),) if tell else ()
