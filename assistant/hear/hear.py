"""Words to facts: `hear(machine, text, asked, phrasebook) -> (facts, rest)`.

Several facts may stand in one line, asked for or not. What was asked comes first: an answer to it wins
over any other reading of the same words. What is clear is certain; what is not is a doubtful fact, and
doubtful facts of the same `words` are rivals, best first. The rest is what nothing was made of.
Deterministic; no model, no network.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.facts import Fact
from assistant.hear import asked as answering
from assistant.hear import questions, replies
from assistant.hear.barrel_words import COLOUR_WORDS, FLAVOURS, NAMES_ASKED, SIDE_WORDS, SIDES
from assistant.hear.ear import ASIDE, SURE_ANSWER, Ear, Heard
from assistant.hear.features import weighty
from assistant.hear.line import Line
from assistant.hear.making import Maker
from assistant.hear.numbers import plain
from assistant.hear.replying import NOT_UNSURE, Replier
from assistant.hear.rest import covered
from assistant.hear.table import comparable
from assistant.hear.taking_back import taken_back
from assistant.hear.telling import Teller
from assistant.hear.words import instead
from assistant.hear.yes_no import plain_outcome

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.facts import Kind
    from assistant.hear.joined import Span
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.replies import Found
    from graph.machine import Check, Machine

# How close to chatter, and how far from an outcome, a reply is that tells nothing.
CHATTER, VAGUE = 0.75, 0.35
TELLS = 2  # words that carry meaning after a request, to tell something
LONE_SIDES = frozenset(["left", "right"])  # "right" alone is a yes, but not in "i meant right"
# Beside flavours that are only listed: "3 barrels, cola, cherry, blue rasp left to right".
NAMING = frozenset(
    ["barrels", "flavours", "drinks", "rasp", "razz", "order", "going", "across", "front", "far"]
)
EVIDENCE = frozenset(["symptom", "not_symptom", "answer", "danger", "reading"])


def hear(
    machine: Machine, text: str, asked: str | None, phrasebook: Phrasebook
) -> tuple[tuple[Fact, ...], str]:
    """Return what a person's line says, and the words that nothing was made of.

    `asked` is the id or ref of the check or symptom that was just asked, if any.
    """
    line = Line.of(text, phrasebook)
    if not line.words:
        return (), text
    check = _asked_of(phrasebook.check(asked) if asked else None, line, phrasebook)
    back = taken_back(line)
    heard = Heard()
    if back is not None:  # what is wrong is left out before anything else is understood
        heard.add(Fact("correct", value=back.about, words=line.typed(back.span)), back.span)
        _standing(line, back.stands, check, phrasebook, machine, heard)
    else:
        _Listener(line, check, phrasebook, heard, Maker(machine, phrasebook, line)).listen()
    if back is not None and back.about == "number" and not heard.has("reading", "danger"):
        _bare_number(line, back.stands, machine.barrels, heard, asked=check is not None)
    _name_stranger(line, phrasebook, check, heard)
    return covered(line, _well_aimed(heard.facts, check))


def _asked_of(check: Check | None, line: Line, book: Phrasebook) -> Check | None:
    """Return the check that was asked, none where it is of one barrel and the line names another one."""
    other = check is not None and check.barrel is not None and not _asks_names(check)
    return None if other and book.barrels.strangers(line.words) else check


def _asks_names(check: Check) -> bool:
    asked = f"{check.title} {check.ask.get('operator', '')}".casefold()
    return any(word in asked for word in NAMES_ASKED)


def _name_stranger(line: Line, book: Phrasebook, check: Check | None, heard: Heard) -> None:
    """Add the flavour that is named as a barrel and that this machine does not have, as a doubtful "which".

    Not where labels or flavours are asked about; what is taken for an answer to anything else is in doubt.
    """
    strangers = book.barrels.strangers(line.words)
    if not strangers or (check is not None and _asks_names(check)):
        return
    if _only_names(line):
        heard.facts[:] = []  # "cola left, cherry in the middle" tells what is where, and no trouble
        return
    heard.facts[:] = [
        (replace(f, certain=False) if check is not None and f.kind == "answer" and f.id == check.id else f, s)
        for f, s in heard.facts
    ]
    at, name = next(iter(strangers.items()))
    heard.add(Fact("which", value=name, certain=False, words=line.typed((at, at + 1))), (at, at + 1))


def _only_names(line: Line) -> bool:
    """Tell whether a line says nothing but which flavours there are and where each is."""
    told = [word.text for word in line.words if weighty(word)]
    named = [text for text in told if text in FLAVOURS or text == "blue"]
    placed = any(word.text in SIDE_WORDS for word in line.words)
    several = len(named) > (1 if placed else 2)
    places = {at for number in line.numbers for at in range(number.start, number.end)}
    rest = [word.text for at, word in enumerate(line.words) if at not in places and weighty(word)]
    return several and all(text in SIDE_WORDS | SIDES | COLOUR_WORDS | FLAVOURS | NAMING for text in rest)


def _bare_number(line: Line, stands: Sequence[int], barrels: int, heard: Heard, *, asked: bool) -> None:
    """Take the number of a correction for a reading of what the engine knows was read last.

    A figure that numbers a barrel names that where no reading was asked for.
    """
    number = next(number for number in line.numbers if number.start in stands)
    fact = Fact("reading", value=plain(number.value), unit=number.unit, words=line.text)
    if not asked and not number.unit and number.value in range(1, barrels + 1):
        fact = replace(fact, kind="which", which=(int(number.value),))
    heard.facts[:] = [pair for pair in heard.facts if pair[0].kind == "correct"]
    heard.add(fact, (number.start, number.end))


def _standing(
    line: Line,
    stands: Sequence[int],
    check: Check | None,
    book: Phrasebook,
    machine: Machine,
    heard: Heard,
) -> None:
    """Understand the words that stand where others were taken back."""
    if not stands:
        return
    words = tuple(line.words[at] for at in stands)
    if len(words) == 1 and words[0].text in LONE_SIDES:
        stands, words = (*stands, *stands), instead(words[0], (words[0].text, "side"))
    rest, later = Line.made_of(words, line.text, book), Heard()
    _Listener(rest, check, book, later, Maker(machine, book, rest)).listen()
    for fact, (first, end) in later.facts:
        heard.add(fact, (stands[first], stands[end - 1] + 1))


def _well_aimed(facts: list[tuple[Fact, Span]], check: Check | None) -> list[tuple[Fact, Span]]:
    """Return the facts, an answer to the reading asked for being doubtful where another reading was told.

    What is plainly an answer stays one.
    """
    told = {fact.id for fact, _ in facts if fact.kind == "reading"}
    if check is None or not check.reading or not told or check.reading in told:
        return facts
    return [
        (replace(fact, certain=fact.certain and (fact.id != check.id or fact.score >= SURE_ANSWER)), span)
        for fact, span in facts
    ]


@dataclass(frozen=True, slots=True)
class _Listener(Ear):
    """Listens to a line from beginning to end."""

    def listen(self) -> None:
        """Understand the line: what takes back, asks back and answers first, then what is volunteered."""
        replier = Replier(self.line, self.check, self.book, self.heard, self.make)
        teller = Teller(self.line, self.check, self.book, self.heard, self.make)
        self._question()
        asks = not self.heard.facts and questions.is_request(self.line.plain)
        if asks and questions.is_wait(self.line.plain):
            return
        if asks and not self._nearly_an_answer():
            asked_for = self._request()
            if asked_for == self.whole:
                return
            self.heard.aside.append(asked_for)
        asked = self.check is not None and not self.heard.has("ask") and not self._chats()
        answered = self.check is not None and asked and not self._at_a_loss() and replier.take(self.check)
        if not answered and self._bare():
            return
        if not answered and self.check is None and teller.reach():
            return
        if not answered and teller.only_barrels():
            teller.which()
        elif not answered:
            self._plain_talk(alone=True)
            if not self.heard.has("unsure", "cannot"):
                self._first_of_all()
                teller.tell()
                self._plain_talk(alone=False)
            teller.which()
        elif self.check is not None:
            self._beside(self.check, replier, teller)

    def _beside(self, check: Check, replier: Replier, teller: Teller) -> None:
        """Take what is told beside an answer."""
        replier.beside()
        if check.kind == "symptom" and self.whole not in self.heard.spans():
            teller.tell()  # what follows a yes or no
        if not self.heard.has("reading"):
            replier.which(check)

    def _request(self) -> Span:
        """Return the words that ask for something: up to the first mark, if more is told after it."""
        words = self.line.words
        end = next((at + 1 for at, word in enumerate(words) if word.is_mark), len(words))
        return (0, end) if sum(map(weighty, words[end:])) >= TELLS else self.whole

    def _plain(self, found: Found) -> None:
        fact = Fact("cannot") if found.kind == "cannot" else Fact("unsure")
        self.heard.add(replace(fact, words=self.line.typed(found.span)), found.span)

    def _question(self) -> None:
        """Take a question back; what follows a question mark may still tell something."""
        kind = questions.question(self.line.plain)
        if not kind or self.heard.facts:
            return
        if self._nearly_an_answer() and not questions.is_plain_question(self.line.plain):
            return
        marks = [at + 1 for at, word in enumerate(self.line.words) if word.text == "?"]
        span = (0, marks[0] if marks else len(self.line.words))
        near, chapter = (self.check.component, self.check.chapter) if self.check else ("", "")
        part = None if kind == "why" else self.book.parts.meant(self.line.words[: span[1]], near, chapter)
        elsewhere = questions.asks_of_us(self.line.plain) or (
            any(map(weighty, self.line.words)) and not questions.refers(self.line.plain)
        )
        if part is None and self.check is None and elsewhere:
            self.heard.aside.append(span)
            return
        name, ref = (part.id, part.ref) if part else ("", "")
        self.heard.add(Fact("ask", id=name, ref=ref, value=kind, words=self.line.typed(span)), span)
        loss = self.talk()  # "no idea, where is it?" says two things
        ends = self.line.words[loss.span[1] : loss.span[1] + 1] if loss is not None else ()
        if loss is not None and loss.kind == "unsure" and any(word.is_mark for word in ends):
            self._plain(loss)

    def _nearly_an_answer(self) -> bool:
        """Tell whether the line is so close to an outcome of what was asked that it is no question."""
        check = self.check
        if check is None or check.kind == "symptom":
            return False
        return answering.whole(check, self.line.words, self.book).score >= SURE_ANSWER

    def _chats(self) -> bool:
        """Tell whether a reply is but chatter, and far from every outcome of what was asked."""
        if self.check is None or self.check.kind == "symptom" or self.line.numbers or self.line.mentions:
            return False
        said = comparable(self.line.words, self.book.barrels)
        if self.book.chatter.likeness(said) < CHATTER or replies.bare(self.line.plain) or self.talk():
            return False
        return answering.whole(self.check, self.line.words, self.book).score < VAGUE

    def _at_a_loss(self) -> bool:
        """Tell whether "don't know" is all that a reply says to the check; the rest is of other things."""
        found, check = self.talk(), self.check
        if found is None or found.kind != "unsure" or check is None or check.kind == "symptom":
            return False
        first, end = found.span
        words = self.line.words
        rest = (*words[:first], *words[end:])
        if self.line.numbers or not any(map(weighty, rest)):
            return False
        return answering.whole(check, rest, self.book).score < NOT_UNSURE

    def _first_of_all(self) -> None:
        """Take "not sure" and "can't" in a reply that does not answer, before what else it tells."""
        found = self.talk() if self.check is not None and not self.heard.has("ask") else None
        if found is not None:
            self._plain(found)

    def _bare(self) -> bool:
        reply = "" if self.heard.facts else replies.bare(self.line.plain) or self._opening()
        if not reply:
            return False
        outcome = plain_outcome(self.check, reply, self.book) if self.check and reply != "done" else ""
        if self.check is not None and outcome:
            self.heard.add(self.make.outcome(self.check, outcome, 1.0, self.whole), self.whole)
        else:
            kind: Kind = "no" if reply == "no" else "yes"
            self.heard.add(
                Fact(kind, value="done" if reply == "done" else "", words=self.line.text), self.whole
            )
        return True

    def _opening(self) -> str:
        """Return the yes or no that a reply opens with, if little else is said: "yes they have"."""
        return self.said_so() if self.check is not None else ""

    def _plain_talk(self, *, alone: bool) -> None:
        """Take "not sure" and "can't" where the line says little else, or no evidence covers them."""
        if self.heard.has("unsure", "cannot", "ask"):
            return
        found = self.talk()
        if found is None:
            return
        first, end = found.span
        others = [word for at, word in enumerate(self.line.words) if not first <= at < end and weighty(word)]
        covered_by = any(begin < end and stop > first for begin, stop in self.heard.spans(*EVIDENCE))
        if len(others) <= ASIDE if alone else not covered_by:
            self._plain(found)
