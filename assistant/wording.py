"""Every sentence of the conversation, apart from the pack's own; long because they all stand here.

The rules of tone: one question at a time, short plain sentences, why in a few words. Ask for a look or a
touch, not for an opinion. Repeat numbers back, tell waiting times, never blame, say what is not sure.
Numbers are rounded here and nowhere else.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from assistant.engine.effects import Option, Tell, Warn
from graph.errors import GraphError
from graph.units import convert

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from assistant.engine.effects import Ask, Cause
    from graph.machine import (
        Caution,
        Check,
        Component,
        Fault,
        Gate,
        Limits,
        Outcome,
        Quantity,
        Remedy,
        Step,
        Verification,
    )
    from graph.physics import Quantity as Number
    from graph.physics import WorkOut

# -- options -------------------------------------------------------------------------------------

YES_NO = (Option("yes", "Yes"), Option("no", "No"))
NO_ANSWER = (Option("unsure", "Not sure"), Option("cannot", "Can't do that here"))
CONFIRMED = (Option("yes", "Yes"), Option("no", "No"), Option("unsure", "Not sure"))
DONE = (Option("yes", "Done"), Option("no", "Can't do it"), Option("unsure", "Not sure"))
UNDERSTOOD = (Option("yes", "Understood"), Option("no", "Not clear, or can't be kept to"))
SAFE_NOW = (Option("yes", "It is safe now"), Option("no", "Not yet"))
GONE = (
    Option("yes", "Yes, it is gone"),
    Option("no", "No, still there"),
    Option("unsure", "Too early to say"),
)
SKIP = Option("skip", "Skip this")
NONE_OF_THESE = Option("no", "None of these")
OTHER_CAUSE = Option("other", "Something else")
NOTHING_TO_ADD = Option("no", "Nothing to add")

# -- everyday words ------------------------------------------------------------------------------

ROLE_NAMES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "operator": ("counter", "staff", "manager", "shift lead"),
        "helpdesk": ("agent", "help desk", "first line"),
        "technician": ("engineer", "fitter", "tech", "mechanic"),
        "refrigeration": ("fridge engineer", "refrigeration engineer"),
        "gas_supplier": ("gas man",),
        "supervisor": ("trainer",),
    }
)
EVERYDAY: Mapping[str, str] = MappingProxyType(
    {
        "ok": "yes",
        "okay": "yes",
        "done": "yes",
        "did it": "yes",
        "finished": "yes",
        "ready": "yes",
        "y": "yes",
        "n": "no",
        "not sure": "unsure",
        "don't know": "unsure",
        "can't": "cannot",
        "not now": "no",
    }
)

# -- help ----------------------------------------------------------------------------------------

HELP_WHY = "why this question, and what each answer would change"
HELP_CAUSES = "the causes that are likely now"
HELP_FACTS = "all answers so far, and what each one weighs"
HELP_WHERE = "where a part is: /where cylinder"
HELP_WHAT = "what a part is or a word means: /what regulator"
HELP_UNSURE = "you do not know; the question is left out"
HELP_CANNOT = "you can't do that here; it is not asked again"
HELP_SKIP = "leave this question out"
HELP_WORK_OUT = "work a number out: /work-out gross=22 tare=12, or /work-out gas_left gross=22 tare=12"
HELP_WITHOUT = "a tool is not at hand: /without multimeter"
HELP_BACK = "take the last answer back"
HELP_CHANGE = "ask an earlier question again: /change cylinder"
HELP_NOTE = "write something down for the record: /note key is at the bar"
HELP_ROLE = "say what you are: /role technician"
HELP_HANDOVER = "somebody else goes on: /handover technician Kim"
HELP_STOP = "end the session here"
HELP_RESUME = "go on with a session that was stopped"
HELP_HELP = "this list"

# -- fixed sentences -----------------------------------------------------------------------------

NOT_NAMED = "not named"
ASK_ROLE = "Who am I talking to? That decides what I ask of you."
ASK_SITE = "Which site is it, and which machine there?"
ASK_COMPLAINT = "Tell me in your own words what is wrong."
ASK_CAUSE = "Which cause did you find?"
SAFETY_FIRST = "safety comes before anything else"
NOT_IN_GRAPH = "I don't know this one"
NOTHING_WRONG = "Nothing seems to be wrong with the machine"
MAKE_SAFE = "The danger comes first"


def _tell(topic: str, text: str, name: str = "", ref: str = "") -> Tell:
    return Tell(topic, text, name, ref)


# -- small pieces --------------------------------------------------------------------------------


def sentence(text: str) -> str:
    """Return a text with a capital at its start."""
    return text[:1].upper() + text[1:]


def _stop(text: str) -> str:
    """Return a sentence with a full stop, unless it ends in a mark of its own."""
    text = sentence(text.strip())
    return text if text.endswith((".", "?", "!", '"')) else f"{text}."


def _lower(text: str) -> str:
    """Return a title as it stands inside a sentence; a short form in capitals stays."""
    return text if text[:2].isupper() else text[:1].lower() + text[1:]


def percent(p: float) -> str:
    """Return a probability in whole per cent, never as certainty."""
    if p < 0.01:  # noqa: PLR2004 - one per cent
        return "under 1 %"
    return "over 99 %" if p > 0.99 else f"{p * 100:.0f} %"  # noqa: PLR2004 - all but one


def number(value: float, unit: str) -> str:
    """Return a number with its unit, to two places at most."""
    return f"{round(value, 2):g} {unit}".strip()


_OTHER_SYSTEM = MappingProxyType({"psi": "bar", "bar": "psi", "kPa": "psi", "C": "F", "F": "C"})


def both(value: float, unit: str, own: str) -> str:
    """Return a number with its unit, and in the quantity's own unit or the other system beside it."""
    other = own if unit and unit != own else _OTHER_SYSTEM.get(unit or own, "")
    text = number(value, unit or own)
    try:
        return f"{text} ({number(round(convert(value, unit or own, other), 1), other)})" if other else text
    except GraphError:
        return text


def minutes(value: float) -> str:
    """Return a waiting time."""
    if value < 1:
        return "less than a minute"
    return "about a minute" if round(value) == 1 else f"about {value:.0f} minutes"


def limits_text(quantity: Quantity, limits: Limits | None) -> str:
    """Return limits in the quantity's unit."""
    low, high = limits or (None, None)
    if low is None and high is None:
        return f"any {quantity.title}"
    if low is None:
        return f"at most {number(high or 0.0, quantity.unit)}"
    return (
        f"at least {number(low, quantity.unit)}"
        if high is None
        else f"{low:g} to {number(high, quantity.unit)}"
    )


def role_title(titles: Mapping[str, str], role: str) -> str:
    """Return what a role is called."""
    return sentence(titles.get(role, role.replace("_", " ")))


def read_out(role: str, text: str) -> str:
    """Return a sentence as the person here needs it: an agent reads it out to the operator."""
    return f'Read out: "{text}"' if role == "helpdesk" else text


def _after(role: str) -> tuple[str, ...]:
    """Return whose wording to use, best first."""
    chains = {
        "helpdesk": ("helpdesk", "operator"),
        "technician": ("technician", "operator"),
        "refrigeration": ("refrigeration", "technician", "operator"),
    }
    return chains.get(role, ("operator",))


def question(check: Check, role: str) -> str:
    """Return a check's question in the wording for a role."""
    own = next((check.ask[who] for who in _after(role) if who in check.ask), "")
    return read_out(role, own or next(iter(check.ask.values()), check.title))


def with_numbers(text: str, work: WorkOut | None) -> str:
    """Return a question that also says which numbers would do for an answer."""
    if work is None:
        return text
    needed = ", ".join(_wanted(ask) for ask in work.asks if ask.default is None)
    return f"{text} Or give me the numbers, and I work it out: {needed}."


def _wanted(ask: Number) -> str:
    return f"{ask.name} ({ask.label}{f', {ask.unit}' if ask.unit else ''})"


def outcome_label(check: Check, outcome: str) -> str:
    """Return the label of an outcome by id."""
    index = check.outcome_index(outcome)
    return check.outcomes[index].label if index >= 0 else outcome


def said_of(check: Check, outcome: str) -> str:
    """Return an answer in words: a symptom by its title, a check with its outcome's label."""
    if check.kind == "symptom":
        return _lower(check.title) if outcome == "present" else f"not: {_lower(check.title)}"
    title, label = _lower(check.title), outcome_label(check, outcome)
    return f"{title} {sentence(label)}" if title.endswith("?") else f"{title}: {_lower(label)}"


def said_of_any(check: Check, outcome: str) -> str:
    """Return an answer of a check that stands once per barrel or sensor, before it is known which."""
    return f"{said_of(check, outcome)} (or another one of the kind)"


def reading(quantity: Quantity, value: float, unit: str) -> str:
    """Return a reading in words, in both systems where there are two."""
    return f"{_lower(quantity.title)}: {both(value, unit, quantity.unit)}"


# -- intake --------------------------------------------------------------------------------------


def welcome(machine: str) -> Tell:
    return _tell(
        "welcome", f"{_stop(machine)} A few questions, one at a time. If you can't do one, just say."
    )


def repeated(sentence: str) -> Tell:
    """Return what an earlier session says, as it was recorded."""
    return _tell("repeat", sentence)


def no_such_role(role: str) -> Tell:
    return _tell("ignored", f'I know no role "{role}".')


def need_role() -> Tell:
    return _tell("ignored", "I need to know that first: it decides what is safe for you to do.")


def site_taken(site: str) -> Tell:
    return _tell("taken", f"Site: {site}.")


# -- understanding -------------------------------------------------------------------------------


def taken(labels: Iterable[str]) -> Tell:
    return _tell("taken", f"I take that as: {'; '.join(labels)}.")


def do_you_mean(label: str) -> str:
    return f"Do you mean: {label}?"


def which_did_you_mean(words: str) -> str:
    return f'You said "{words}". Which of these do you mean?' if words else "Which of these do you mean?"


def which_one(words: str) -> str:
    return f'You said "{words}". Which one is it?' if words else "Which one is it?"


def which_unit(quantity: Quantity, value: float) -> str:
    return f"{sentence(quantity.title)} {round(value, 2):g}: which unit does it show?"


def really(quantity: Quantity, value: float, unit: str) -> str:
    text = f"{sentence(quantity.title)} {number(value, unit)}, have I got that right?"
    if quantity.typical is None:
        return text
    return f"{text} I would expect {limits_text(quantity, quantity.typical)}."


def left_out() -> Tell:
    return _tell("taken", "Then I leave that out.")


def no_number(text: str) -> str:
    return f'"{text}" is no number that I can use: give it in figures, such as 62.'


def impossible_reading(quantity: Quantity, why_not: str) -> str:
    return f"I can't take that for {_lower(quantity.title)}. {why_not}"


def ignored(text: str) -> Tell:
    return _tell("ignored", text)


def worked_out(line: str) -> Tell:
    return _tell("worked_out", _stop(line))


def nothing_to_work_out(names: Iterable[str]) -> Tell:
    known = ", ".join(names)
    return _tell("ignored", f"This question has nothing to work out. Name what you want: {known}.")


def not_here(words: str) -> Tell:
    return _tell("ignored", f'"{words}" fits nothing on this machine; I keep it as a note.')


def nothing_understood() -> Tell:
    return _tell("ignored", "I did not understand that; I keep it as a note. Try other words, or an option.")


def rest_kept(rest: str) -> Tell:
    return _tell("ignored", f'I made nothing of "{rest}"; I keep it as a note.')


def no_such_option(option: str) -> Tell:
    return _tell("ignored", f'"{option}" is none of the answers to this question.')


def which_of_these() -> Tell:
    return _tell("ignored", "Which of these answers is it?")


def no_number_wanted() -> Tell:
    return _tell("ignored", "This question needs no number. If it is a reading, say what was read.")


def no_such_quantity(name: str) -> Tell:
    return _tell("ignored", f'This machine has no reading called "{name}".')


def number_needed() -> Tell:
    return _tell("ignored", "I need the number that you read there.")


def nothing_asked() -> Tell:
    return _tell("ignored", "There is no open question.")


def began_noted(when: str) -> Tell:
    return _tell("taken", f"It began: {when}.")


def fine_noted() -> Tell:
    return _tell("taken", "Good, I note that. I may still ask you to look.")


def barrels_noted(barrels: Sequence[int]) -> Tell:
    names = " and ".join(str(barrel) for barrel in barrels)
    return _tell("taken", f"Barrel{'s' if len(barrels) > 1 else ''} {names}, noted.")


def say_it_again() -> Tell:
    return _tell(
        "ignored",
        "I did not understand that; I keep it as a note. What do the drinks or the display do?",
    )


def go_on_asking() -> Tell:
    return _tell("taken", "That's fine. I ask, and you look.")


# -- safety --------------------------------------------------------------------------------------


def warn(caution: Caution, *, stop: bool = False) -> Warn:
    return Warn(caution.id, caution.ref, caution.title, caution.do, caution.do_not, caution.who, stop=stop)


def look_again() -> Tell:
    return _tell("safety", "This has to be clear before we go on. Please look once more, from a safe place.")


def hazard_noted() -> Tell:
    return _tell("safety", "I take it as not cleared. Keep to the caution; whoever comes next will see it.")


def safety_stays() -> Tell:
    return _tell("refused", "Safety questions can't be skipped. If you don't know, say so.")


def ask_safe(cautions: Sequence[Caution]) -> str:
    names = "; ".join(_lower(caution.title) for caution in cautions)
    who = "; ".join(dict.fromkeys(caution.who.rstrip(".") for caution in cautions))
    return f"We stop here: {names}. Is it safe now? That is for these to say: {who}."


def still_halted() -> Tell:
    text = "Then nobody goes in. If anyone is unwell, ring the emergency number. Tell me when it is safe."
    return _tell("safety", text)


def while_halted(caution: Caution) -> Tell:
    return _tell("safety", f"I can't go into that now. {caution.do_not or caution.do}")


def safe_again() -> Tell:
    return _tell("safety", "Good. We go on where we were. If anything changes, say so at once.")


def not_in_danger() -> Tell:
    return _tell(
        "refused", "Not while there is danger. You can say that it is safe, hand over, note or stop."
    )


def danger_reasons(complaint: str) -> tuple[str, ...]:
    told = (f"The complaint was: {complaint}",) if complaint else ()
    return ("A danger was reported and has not been cleared.", *told)


# -- checks --------------------------------------------------------------------------------------


def remark(check: Check, text: str) -> Tell:
    return _tell("remark", _stop(text), check.id, check.ref)


def never_mind(choice: str) -> Tell:
    return _tell(
        "taken",
        "No matter, I leave that out." if choice == "unsure" else "That's fine. I won't ask it again.",
    )


def conflict(check: Check, outcome: str) -> Tell:
    said = said_of(check, outcome)
    text = f'The answers do not fit together well. "{sentence(said)}" fits least. Let me ask that again.'
    return _tell("conflict", text, check.id, check.ref)


def before_check(check: Check) -> str:
    return f"before this check: {_lower(check.title)}"


def gate_title(gate: Gate) -> Tell:
    return _tell("gate", f"First, step by step: {_lower(gate.title)}.", gate.id, gate.ref)


def not_past_gate(check: Check, cannot: str) -> Tell:
    own = f" {_stop(cannot)}" if cannot else ""
    return _tell(
        "stopped", f"Then we leave that check out: not safe to do here now.{own}", check.id, check.ref
    )


def acknowledge(caution: Caution) -> str:
    return f"{sentence(caution.title)}. Is that understood, and can you keep to it?"


def asking_again(check: Check) -> Tell:
    return _tell("taken", f"Again, then: {_lower(check.title).rstrip('?')}.", check.id, check.ref)


def asked_afterwards(check: Check) -> Tell:
    text = f"I ask that again when this work is over: {_lower(check.title).rstrip('?')}."
    return _tell("taken", text, check.id, check.ref)


# -- decisions -----------------------------------------------------------------------------------

_REASONS = MappingProxyType(
    {
        "certain": "That is sure enough to act on.",
        "cheaper": "Trying it now costs less than asking on.",
        "no_check_changes_it": "No question left would change what to do.",
        "not_yours": "The next step belongs to somebody else.",
    }
)


def reasons(reason: str, probable: Cause | None, causes: Sequence[Cause]) -> tuple[str, ...]:
    """Return why this is decided: the likely cause, the next likely one, and the rule that decided."""
    found = []
    if probable is not None:
        found.append(f"Most likely: {_lower(probable.title)} ({percent(probable.probability)}).")
        second = next((cause for cause in causes if cause.id != probable.id), None)
        if second is not None:
            found.append(f"Second: {_lower(second.title)} ({percent(second.probability)}).")
    return (*found, *((_REASONS[reason],) if reason in _REASONS else ()))


def unknown_reasons(ruled_out: Sequence[str]) -> tuple[str, ...]:
    """Return what an honest "I don't know" rests on."""
    text = "The answers fit no cause that I know better than chance."
    return (text, *((f"Ruled out: {'; '.join(_lower(name) for name in ruled_out)}.",) if ruled_out else ()))


def nothing_reasons() -> tuple[str, ...]:
    return ("All answers are what a healthy machine shows.",)


def urgency(*, hazard: bool, barrel: bool) -> str:
    if hazard:
        return "at once: safety"
    return "soon: one barrel is down" if barrel else "today: the whole machine may be down"


def offer(remedy: Remedy, role: str) -> str:
    """Return the offer of a repair, with the time it takes."""
    plain = remedy.plain if role in {"operator", "helpdesk"} else remedy.title
    return f"{read_out(role, _stop(plain))} It takes {minutes(remedy.minutes)}. Shall we do it now?"


def offer_why(causes: Sequence[Cause], role: str) -> str:
    del role
    if not causes:
        return ""
    first = f"most likely {_lower(causes[0].title)}, {percent(causes[0].probability)}"
    return first if len(causes) == 1 else f"{first}; second {_lower(causes[1].title)}"


def ask_trained(remedy: Remedy, role: str) -> str:
    who = "Has the person at the machine" if role == "helpdesk" else "Have you"
    return f"{who} been trained for this work: {_lower(remedy.title)}?"


def declined(remedy: Remedy) -> Tell:
    return _tell("taken", f"Then not: {_lower(remedy.title)}. I go on asking.", remedy.id, remedy.ref)


def record_first(remedy: Remedy) -> Tell:
    text = f"Before that is decided ({_lower(remedy.title)}), something must be seen and written down."
    return _tell("decision", text, remedy.id, remedy.ref)


# -- doing ---------------------------------------------------------------------------------------


def begin(remedy: Remedy, role: str) -> Tell:
    tools = f" You need: {', '.join(_spelled(remedy.tools))}." if remedy.tools else ""
    parts = f" Parts: {', '.join(_spelled(remedy.parts))}." if remedy.parts else ""
    how = "Read each step out, one at a time." if role == "helpdesk" else "One step at a time."
    return _tell("doing", f"{_stop(remedy.title)}{tools}{parts} {how}", remedy.id, remedy.ref)


def _spelled(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(name.replace("_", " ") for name in names)


def step(item: Step, role: str) -> str:
    """Return a step as it is shown, with its waiting time and the question to be answered."""
    wait = f" Allow {minutes(item.wait)} for it." if item.wait else ""
    confirm = f" {_stop(item.confirm)}" if item.confirm else ""
    return read_out(role, f"{_stop(item.do)}{wait}{confirm}")


def out_of_limits(quantity: Quantity, limits: Limits | None) -> Tell:
    text = f"That is out of limits: {_lower(quantity.title)} should be {limits_text(quantity, limits)}."
    return _tell("reading", text, quantity.id)


def read_again(wait: float) -> Tell:
    how_long = minutes(wait) if wait else "a minute or two"
    return _tell("reading", f"Give it {how_long}, then read it once more.")


def work_stopped(cannot: str) -> Tell:
    own = f" {_stop(cannot)}" if cannot else ""
    text = f"Then the work stops here. Leave shut what is shut and off what is off.{own}"
    return _tell("stopped", text)


def not_your_step() -> Tell:
    text = "The next step is not yours to do, so the work stops here. Leave shut what is shut."
    return _tell("stopped", text)


# -- proving -------------------------------------------------------------------------------------


def now_prove(remedy: Remedy) -> Tell:
    return _tell("proving", "The work is done. Now we see whether it helped.", remedy.id, remedy.ref)


def proof_why(remedy: Remedy) -> str:
    return f"to prove the repair: {_lower(remedy.title)}"


def verify(item: Verification, quantity: Quantity | None) -> str:
    """Return what is to be seen after the work."""
    if quantity is None:
        return f"{_stop(item.text)} Is that so?"
    return _stop(item.text) if item.text else f"Read the {_lower(quantity.title)} now."


def not_proved() -> Tell:
    return _tell("proving", "Then that stays unproved, and I note it so.")


def ask_gone(complaint: str) -> str:
    return f'You said: "{complaint}". Is that gone now?' if complaint else "Is the complaint gone now?"


def too_early() -> Tell:
    return _tell("proving", "Then look again later, before the next busy hour.")


def did_not_help() -> Tell:
    text = "So the complaint is not gone. That is an answer all the same: there is another cause. I go on."
    return _tell("proving", text)


# -- closing -------------------------------------------------------------------------------------


def ask_note(outcome: str) -> str:
    if outcome in {"visit", "referred", "not_found"}:
        return "Anything that whoever comes should know: access, keys, opening hours?"
    return "Anything to add for the record?"


def write_it() -> Tell:
    return _tell("ignored", "Then write it here, up to 600 characters.")


def note_cut(longest: int) -> Tell:
    return _tell("note", f"That is longer than {longest} characters; I keep the first {longest}.")


_ENDS = MappingProxyType(
    {
        "cured": "Put right.",
        "cured_for_now": "Put right for now; not proved yet.",
        "made_safe": "Stopped for safety. The danger is not cleared yet: keep everybody away from it.",
        "visit": "Somebody comes to the machine.",
        "referred": "Handed on to those whose work it is.",
        "not_found": "No cause was found.",
        "stopped": "Stopped here. Nothing is lost; it can go on from here.",
    }
)


def closing(outcome: str, cause: Fault | None, remedy: Remedy | None) -> str:
    """Return the last words: how it ended, the cause, and what to watch for."""
    parts = [_ENDS.get(outcome, "The session is over.")]
    if cause is not None and outcome in {"cured", "cured_for_now"}:
        parts.append(f"Cause: {_stop(_lower(cause.title))}")
    if cause is not None and outcome in {"visit", "referred"}:
        parts.append(f"Most likely: {_stop(_lower(cause.title))}")
    if remedy is not None and remedy.serve and outcome in {"visit", "referred"}:
        parts.append(_stop(remedy.serve))
    if outcome in {"cured", "cured_for_now"}:
        parts.append("If it comes back, call again and say what has changed since today.")
    return " ".join(parts)


# -- slash words ---------------------------------------------------------------------------------


def help_line(word: str, text: str) -> Tell:
    return _tell("help", f"/{word}: {text}", word)


def no_such_word(word: str) -> Tell:
    return _tell("refused", f'There is no word "/{word}". Type /help for the list.')


def session_over() -> Tell:
    return _tell("refused", "This session is over.")


def refused(stage: str) -> Tell:
    return _tell("refused", f"That does not fit here: the session is at {stage}. Nothing has changed.")


def noted() -> Tell:
    return _tell("note", "Noted.")


def empty_note() -> Tell:
    return _tell("ignored", "Write the note behind the word: /note key is at the bar.")


def no_such_tool(tools: Sequence[str]) -> Tell:
    return _tell("ignored", f"Which tool is missing? I know: {', '.join(_spelled(tools)) or 'none'}.")


def tool_missing(tool: str) -> Tell:
    return _tell("taken", f"Then nothing that needs: {tool.replace('_', ' ')}.")


def nothing_to_take_back() -> Tell:
    return _tell("refused", "There is nothing to take back.")


def taken_back() -> Tell:
    return _tell("taken", "The last answer is taken back.")


def change_which(given: Sequence[Check]) -> Tell:
    if not given:
        return _tell("ignored", "There is no answer yet to change.")
    listed = "; ".join(f"{check.ref or check.id} {_lower(check.title).rstrip('?')}" for check in given)
    return _tell("ignored", f"Which answer? There are: {listed}.")


def nothing_to_resume() -> Tell:
    return _tell("refused", "Nothing was stopped here.")


def going_on() -> Tell:
    return _tell("taken", "We go on where we stopped. If anything has changed since, say so.")


def hand_to_whom(titles: Mapping[str, str]) -> Tell:
    return _tell("ignored", f"To whom? Say one of: {', '.join(titles.values())}.")


def handed_over(title: str, person: str) -> Tell:
    name = f" ({person})" if person else ""
    return _tell("handover", f"{title}{name} goes on from here.")


def your_role(title: str) -> Tell:
    return _tell("handover", f"You are down as: {title}." if title else "I don't know your role yet.")


def ask_become(title: str) -> str:
    return f"{title}: are you trained and allowed to do that work, here and today?"


def role_kept() -> Tell:
    return _tell("handover", "Then nothing changes.")


def so_far(
    role: str,
    complaint: str,
    answers: int,
    causes: Sequence[Cause],
    *,
    hazards: Sequence[str],
    done: Sequence[str],
    by_phone: bool,
) -> Tell:
    """Return what is known so far, in one paragraph."""
    parts = []
    if complaint:
        parts.append(f'Complaint: "{complaint}".')
    if hazards:
        parts.append(f"Mind: {'; '.join(hazards)}.")
    how = " by phone" if by_phone else ""
    parts.append(f"Answers so far{f' from {_lower(role)}{how}' if role else ''}: {answers}.")
    if done:
        parts.append(f"Done without effect: {'; '.join(done)}.")
    if answers and causes:
        listed = "; ".join(f"{_lower(each.title)} {percent(each.probability)}" for each in causes)
        parts.append(f"Likely: {listed}.")
    return _tell("handover", " ".join(parts))


def unknown_thing(name: str) -> Tell:
    return _tell("ignored", f'I know no part or word "{name}".' if name else "Which part do you mean?")


def where(part: Component, place: str) -> Tell:
    return _tell("where", f"{_stop(part.title)} {_stop(place)} {_stop(part.explain)}", part.id, part.ref)


def where_check(check: Check, place: str) -> Tell:
    return _tell("where", _stop(place), check.id, check.ref)


def what(part: Component) -> Tell:
    return _tell("what", f"{sentence(part.title)}: {_stop(part.explain)}", part.id, part.ref)


def meaning(word: str, text: str) -> Tell:
    return _tell("what", f"{word}: {_stop(text)}")


# -- explaining ----------------------------------------------------------------------------------

_WHY = MappingProxyType(
    {
        "role": "What is safe to ask of you depends on it.",
        "site": "It goes into the record.",
        "complaint": "Your own words often say more than my questions.",
        "fact": "I was not sure what you meant, and only what you confirm counts.",
        "trained": "This work is safe only in trained hands.",
        "become": "What I may show you depends on it.",
        "safe": "Nothing goes on while there is danger.",
        "guard": "It makes the next check safe.",
        "step": "It is a step of the repair.",
        "proof": "Only a reading or a look proves that the repair worked.",
        "gone": "Whether it helped is itself an answer.",
        "cause": "It makes the next diagnosis better.",
        "note": "It goes into the record.",
    }
)


def why(kind: str, shown: Ask) -> Tell:
    """Return why a question is asked, with its gain and its minutes where it has them."""
    parts = [_stop(shown.why)] if shown.why else []
    if kind in _WHY:
        parts.append(_WHY[kind])
    if shown.bits is not None:
        parts.append(f"I expect {shown.bits:.2f} bits about what to do from it.")
    if shown.minutes is not None:
        parts.append(f"It takes {minutes(shown.minutes)}.")
    if shown.bits_left is not None:
        parts.append(f"Open at the moment: {shown.bits_left:.1f} bits.")
    return _tell("why", " ".join(parts) or "It tells us what to do next.", shown.id, shown.ref)


def what_if(check: Check, outcome: Outcome, lead: Cause, before: float) -> Tell:
    now, then = percent(before), percent(lead.probability)
    text = f'If "{outcome.label}": most likely {_lower(lead.title)}, {then} (now {now}).'
    return _tell("why", text, f"{check.id}={outcome.id}", outcome.ref)


def cause(each: Cause) -> Tell:
    return _tell("causes", f"{percent(each.probability)}  {_lower(each.title)}", each.id, each.ref)


def the_rest(nothing: float, unknown: float) -> Tell:
    text = f"Nothing wrong at all: {percent(nothing)}. A cause that I don't know: {percent(unknown)}."
    return _tell("causes", text)


def no_facts() -> Tell:
    return _tell("facts", "No answers yet.")


def facts_about(lead: Cause) -> Tell:
    text = f"Weights in decibans for the leading cause, {_lower(lead.title)} ({percent(lead.probability)}):"
    return _tell("facts", text, lead.id, lead.ref)


def fact(check: Check, outcome: str, value: float | None, unit: str, weight: float) -> Tell:
    measured = f" ({number(value, unit)})" if value is not None else ""
    return _tell("facts", f"{_weight(weight)}  {said_of(check, outcome)}{measured}", check.id, check.ref)


def work_fact(remedy: Remedy, outcome: str, weight: float) -> Tell:
    helped = "helped" if outcome == "cured" else "did not help"
    return _tell("facts", f"{_weight(weight)}  {_lower(remedy.title)}: {helped}", remedy.id, remedy.ref)


def _weight(weight: float) -> str:
    """Return a weight of evidence with its sign; what rounds to nothing has none."""
    return f"{weight:+.1f}" if abs(weight) >= 0.05 else "0.0"  # noqa: PLR2004 - half of the last place


def hazard(caution: Caution) -> Tell:
    return _tell("facts", f"Hazard noted: {_lower(caution.title)}.", caution.id, caution.ref)
