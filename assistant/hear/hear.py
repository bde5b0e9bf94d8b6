"""Words to facts: `hear(machine, text, asked, phrasebook) -> (facts, rest)`.

Several facts may stand in one line, asked for or not. What was asked comes first: an answer to it wins
over any other reading of the same words. What is clear is certain; what is not is a doubtful fact, and
doubtful facts of the same `words` are rivals, best first. The rest is what nothing was made of.
Deterministic; no model, no network.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from assistant.facts import Fact
from assistant.hear import asked as answering
from assistant.hear import replies, unasked
from assistant.hear.began import beginnings
from assistant.hear.features import weighty
from assistant.hear.fine import praised
from assistant.hear.line import Line
from assistant.hear.making import Maker
from assistant.hear.others import with_others
from assistant.hear.readings import LINKS, TELLING, asked_readings, free_numbers, named_readings, quantity_words
from assistant.hear.rest import covered
from assistant.hear.which import is_denied, named

if TYPE_CHECKING:
    from assistant.hear.joined import Span
    from assistant.hear.phrasebook import Phrasebook
    from assistant.hear.readings import Measured
    from assistant.hear.replies import Found
    from assistant.hear.which import Mention
    from graph.machine import Check, Machine

STRONG, CLEAR = 0.4, 0.2  # an answer that close, and that far ahead, is certain
WEAK = 0.10  # closer than this, or it is no answer
VAGUE = 0.3  # below this, parts of the line are tried alone
PLAIN_TALK = 0.45  # an answer must come this close to beat a yes, a no or "can't" in the same line
NOT_UNSURE = 0.65  # likewise "not sure"
SURE_ANSWER = 0.85  # an answer must come this close to beat a question back
PLAINLY_MORE = 0.75  # likewise, to be taken without asking again
EXTRA, FOREIGN = 0.6, 0.2  # what is told beside an answer: how close to a symptom, how far from the outcomes
JUDGES = frozenset(["over", "under", "constantly", "always", "dropping", "stuck", "low", "high"])
ALSO = 0.7  # how far a symptom is to be trusted to be offered where its words are a reading
ASIDE = 1  # words that carry meaning, beside "not sure", that make it more than that
BOXES = frozenset(["box", "boxes", "bag", "bags", "syrup", "syrups", "carton"])
REACHES = frozenset(["all", "one", "some"])  # outcomes of a check that asks which barrels
REST = frozenset(["product", "drink", "drinks", "otherwise", "rest", "others", "everything", "slush", "absolutely"])
TROUBLE = frozenset(["barrel", "side", "tap", "tub", "flavour", "happening", "happens", "problem", "trouble", "issue", "fault", "culprit", "bother", "affected", "ones", "wrong"])
EVIDENCE = frozenset(["symptom", "not_symptom", "answer", "danger", "reading"])


@dataclass(slots=True)
class Heard:
    """What has been understood so far, each with the words it was taken from."""

    facts: list[tuple[Fact, Span]] = field(default_factory=list)
    told_in: Span | None = None  # the part of an answer that tells what is not usual, if one part does

    def add(self, fact: Fact, span: Span) -> None:
        """Keep a fact, unless the same was understood already."""
        known = {(f.kind, f.id, f.value, f.which) for f, _ in self.facts}
        if (fact.kind, fact.id, fact.value, fact.which) not in known:
            self.facts.append((fact, span))

    def spans(self, *kinds: str) -> list[Span]:
        """Return the stretches that something was made of, of some kinds or of all."""
        return [span for fact, span in self.facts if not kinds or fact.kind in kinds]

    def has(self, *kinds: str) -> bool:
        """Tell whether something of these kinds was understood."""
        return any(fact.kind in kinds for fact, _ in self.facts)


def hear(
    machine: Machine, text: str, asked: str | None, phrasebook: Phrasebook
) -> tuple[tuple[Fact, ...], str]:
    """Return what a person's line says, and the words that nothing was made of.

    `asked` is the id or ref of the check or symptom that was just asked, if any.
    """
    line = Line.of(text, phrasebook)
    if not line.words:
        return (), text
    check = phrasebook.check(asked) if asked else None
    heard = Heard()
    _Ear(line, check, phrasebook, heard, Maker(machine, phrasebook, line)).listen()
    return covered(line, heard.facts)


@dataclass(frozen=True, slots=True)
class _Ear:
    """One line being listened to."""

    line: Line
    check: Check | None
    book: Phrasebook
    heard: Heard
    make: Maker

    def listen(self) -> None:
        """Understand the line: what takes back, asks back and answers first, then what is volunteered."""
        self._correction()
        self._question()
        if not self.heard.facts and replies.is_request(self.line.plain) and not self._nearly_an_answer():
            return
        answered = self.check is not None and not self.heard.has("ask") and self._reply(self.check)
        if not answered and self._bare():
            return
        if not answered and self._only_barrels():
            self._which()
        elif not answered:
            self._plain_talk(alone=True)
            if not self.heard.has("unsure", "cannot"):
                self._volunteered()
                self._plain_talk(alone=False)
            self._which()
        else:
            self._beside_answer()
            if self.check is not None and not self.heard.has("reading"):
                self._which_of_answer(self.check)

    @property
    def whole(self) -> Span:
        """The whole line."""
        return 0, len(self.line.words)

    def _correction(self) -> None:
        found = replies.corrections(self.line.plain) or replies.corrections(self.line.joined)
        if found:
            first, last = found[0].span[0], found[-1].span[1]
            near = last - first <= sum(end - begin for begin, end in (each.span for each in found)) + ASIDE
            self._plain(
                replace(found[0], span=(first, last) if near else found[0].span),
                self.check.id if self.check else "",
            )

    def _plain(self, found: Found, name: str = "") -> None:
        fact = Fact("correct", id=name) if found.kind == "correct" else Fact("unsure")
        fact = Fact("cannot") if found.kind == "cannot" else fact
        self.heard.add(replace(fact, words=self.line.typed(found.span)), found.span)

    def _talk(self) -> Found | None:
        """Return the "not sure" or "can't" in the line, if any."""
        finds = (replies.unsure, replies.cannot)
        return next(
            (found for find in finds if (found := find(self.line.plain) or find(self.line.joined))), None
        )

    def _question(self) -> None:
        """Take a question back; what follows a question mark may still tell something."""
        kind = replies.question(self.line.plain)
        if not kind or self.heard.facts:
            return
        if self._nearly_an_answer():
            return
        marks = [at + 1 for at, word in enumerate(self.line.words) if word.text == "?"]
        span = (0, marks[0] if marks else len(self.line.words))
        near, chapter = (self.check.component, self.check.chapter) if self.check else ("", "")
        part = None if kind == "why" else self.book.parts.meant(self.line.words[: span[1]], near, chapter)
        name, ref = (part.id, part.ref) if part else ("", "")
        self.heard.add(Fact("ask", id=name, ref=ref, value=kind, words=self.line.typed(span)), span)

    def _nearly_an_answer(self) -> bool:
        """Tell whether the line is so close to an outcome of what was asked that it is no question."""
        check = self.check
        if check is None or check.kind == "symptom":
            return False
        return answering.whole(check, self.line.words, self.book).score >= SURE_ANSWER

    def _bare(self) -> bool:
        reply = "" if self.heard.facts else replies.bare(self.line.plain)
        if not reply:
            return False
        outcome = answering.plain_outcome(self.check, reply) if self.check else ""
        if self.check is not None and outcome:
            self.heard.add(self.make.outcome(self.check, outcome, 1.0, self.whole), self.whole)
        else:
            self.heard.add(Fact("yes" if reply == "yes" else "no", words=self.line.text), self.whole)
        return True

    # -- the answer to what was asked ------------------------------------------------------------

    def _reply(self, check: Check) -> bool:
        """Take the answer to what was asked; tell whether there is one."""
        if check.kind == "symptom":
            return self._symptom_reply(check)
        if self._reading_reply(check):
            return True
        bare = replies.bare(self.line.plain)
        talk = self._talk()
        words = self.line.words
        if self._reach(check):
            return True
        choice = answering.whole(check, words, self.book)
        if talk is not None and talk.kind == "unsure":
            choice = answering.whole(check, (*words[: talk.span[0]], *words[talk.span[1] :]), self.book)
        if choice.score < VAGUE:
            part = answering.part(check, words, self.line.segments(self.heard.spans()), self.book)
            choice = part if part is not None and part.score > choice.score + CLEAR else choice
        parts = self.line.segments()
        if check.usual >= 0 and choice.ranked[0][0].outcome == check.outcomes[check.usual].id:
            trouble = answering.troubled(check, words, parts, self.book)
            choice = trouble or choice
            self.heard.told_in = trouble.span if trouble else None
        choice = answering.feared(check, words, parts, self.book) or choice
        enough = PLAIN_TALK if talk or bare else WEAK
        enough = NOT_UNSURE if talk is not None and talk.kind == "unsure" else enough
        if choice.score < enough or (bare and choice.margin < CLEAR):
            return False
        certain = choice.score >= STRONG and choice.margin >= CLEAR
        for meaning, score in choice.ranked[: 1 if certain else 3]:
            if score >= WEAK:
                fact = self.make.outcome(check, meaning.outcome, score, self.whole, certain=certain)
                self.heard.add(fact, self.whole)
        return True

    def _reach(self, check: Check) -> bool:
        """Answer how many barrels are affected where the line names them and says nothing else."""
        outcomes = {outcome.id for outcome in check.outcomes}
        if not outcomes >= REACHES:
            return False
        fine = {at for found in praised(self.line) if found.barrels for at in range(*found.span)}
        mentions = [m for m in self.line.mentions if m.start not in fine]
        named_at = fine | {at for mention in mentions for at in range(mention.start, mention.end)}
        rest = [w for at, w in enumerate(self.line.words) if at not in named_at and weighty(w)]
        if not mentions or any(word.text not in TROUBLE for word in rest):
            return False
        barrels = len(named(mentions, self.line.words))
        every = any(mention.scope in {"all", "both"} for mention in mentions)
        if not barrels and not every:
            return False
        reach = "all" if not barrels or barrels == self.book.barrels.count else "one" if barrels == 1 else "some"
        self.heard.add(self.make.outcome(check, reach, 1.0, self.whole), self.whole)
        return True

    def _symptom_reply(self, check: Check) -> bool:
        if self._of_another(check):
            return False
        found = unasked.read(self.line.words, self.whole, self.book)
        meant = self.book.siblings.get(check.base, (check.base,))
        if found is None or found.ranked[0][0].check not in meant:
            return False
        outcome = "absent" if found.denied else "present"
        self.heard.add(self.make.outcome(check, outcome, found.score, self.whole), self.whole)
        return True

    def _of_another(self, check: Check) -> bool:
        """Tell whether a line speaks of another barrel than the one asked about, or calls that one fine.

        "No", "not the cherry" or "cherry is fine" then denies what was asked.
        """
        fine = {barrel for found in praised(self.line) for barrel in found.barrels}
        denied = fine | {barrel for m in self.line.mentions for barrel in m.barrels if is_denied(m, self.line.words)}
        told = {barrel for m in self.line.mentions if m.scope == "some" for barrel in m.barrels} - denied
        if check.barrel is None or check.barrel in told or not told | denied & {check.barrel}:
            return False
        opening = replies.leading(self.line.plain)
        says_no = opening is not None and opening.kind == "no"
        if check.barrel in denied or says_no:
            span = opening.span if opening is not None and says_no else (0, 1)
            self.heard.add(self.make.outcome(check, "absent", 1.0, span), span)
        return True

    def _reading_reply(self, check: Check) -> bool:
        """Take the numbers asked for; where no quantity is asked for, only if the line is nothing else."""
        line, quantities = self.line, self.book.quantities
        base = check.reading.partition("@")[0]
        others = [named for named in self._named_readings() if named.base != base]
        taken = {at for named in others for at in range(*named.span)}
        numbers = [n for n in free_numbers(line.words, line.numbers, line.mentions) if n.start not in taken]
        if not base and numbers and self._only_numbers():
            base = quantities.asked_in((check.title, check.ask.get("operator", "")), numbers[0])
        found = asked_readings(line.words, numbers, self._placing(), base, quantities) if base else []
        if not found and numbers and numbers[0].unit:
            other = quantities.asked_in((check.title, check.ask.get("operator", "")), numbers[0])
            found = asked_readings(line.words, numbers, self._placing(), other, quantities) if other else []
        for measured in found:
            span = self.whole if len(found) == 1 and not others else measured.span
            self.heard.add(
                self.make.banded_danger(check, measured) or self.make.reading(measured, span), span
            )
        skilled = "operator" not in check.roles and not check.reading
        others = [] if skilled else others
        alone = bool(others) and self._only_numbers(quantity_words(line.words, quantities))
        for measured in others if found or alone else ():
            self.heard.add(self.make.reading(measured, measured.span), measured.span)
        return bool(found) or alone

    def _only_numbers(self, named: set[int] | None = None) -> bool:
        places = {at for n in self.line.numbers for at in range(n.start, n.end)} | (named or set())
        places |= {at for m in self._placing() for at in range(m.start, m.end)}
        rest = [word for at, word in enumerate(self.line.words) if at not in places and not word.is_mark]
        return all(word.text in LINKS or not weighty(word) for word in rest)

    def _which_of_answer(self, check: Check) -> None:
        """Take the barrels named in an answer, unless the question is which flavour is where."""
        aside = {at for span in self.heard.spans("symptom", "not_symptom") for at in range(*span)}
        for fine in praised(self.line):
            if fine.barrels and fine.span != self.whole:
                self.heard.add(self.make.fine(fine), fine.span)
                aside.update(range(*fine.span))
        told_in = self.heard.told_in or self.whole
        mentions = [m for m in self.line.mentions_in(told_in) if m.start not in aside]
        asks_names = f"{check.title} {check.ask.get('operator', '')}".lower()
        if not mentions or any(word in asks_names for word in ("flavour", "label", "trace")):
            return
        beside = {
            self.line.words[at].text
            for m in mentions
            for at in (m.start - 2, m.end)
            if 0 <= at < self.whole[1]
        }
        if beside & BOXES:
            return  # a box of cherry was changed, which is not about the barrel
        some = any(mention.scope == "some" for mention in mentions)
        about_reach = {outcome.id for outcome in check.outcomes} >= REACHES
        fact = self.make.which(mentions) if some or about_reach else None
        if fact is not None:
            self.heard.add(fact, (mentions[0].start, mentions[-1].end))

    def _beside_answer(self) -> None:
        """Take what is told beside the answer, if it is clear and not about what was asked.

        What a technician measures in answer to a check is part of the answer.
        """
        skilled = self.check is not None and "operator" not in self.check.roles and not self.check.reading
        for measured in () if skilled else self._named_readings():
            self.heard.add(self.make.reading(measured, measured.span), measured.span)
        segments = self.line.segments()
        if len(segments) < 2 or self.check is None or self.check.kind == "symptom":  # noqa: PLR2004 - one is the answer
            return
        for found in unasked.told(self.line.words, segments[1:], self.book):
            words = self.line.words[found.span[0] : found.span[1]]
            near = answering.whole(self.check, words, self.book).score
            if found.score < EXTRA or found.denied or near > FOREIGN or self._says_only(found.span, set()):
                continue
            clear = found.score >= PLAINLY_MORE and not skilled
            for fact in self.make.symptoms(found, ())[0]:
                self.heard.add(
                    replace(fact, certain=fact.certain and (clear or fact.kind == "danger")), found.span
                )

    # -- what nobody asked for -------------------------------------------------------------------

    def _plain_talk(self, *, alone: bool) -> None:
        """Take "not sure" and "can't" where the line says little else, or no evidence covers them."""
        if self.heard.has("unsure", "cannot", "ask"):
            return
        found = self._talk()
        if found is None:
            return
        first, end = found.span
        others = [word for at, word in enumerate(self.line.words) if not first <= at < end and weighty(word)]
        covered_by = any(begin < end and stop > first for begin, stop in self.heard.spans(*EVIDENCE))
        if len(others) <= ASIDE if alone else not covered_by:
            self._plain(found)

    def _volunteered(self) -> None:
        for measured in self._named_readings():
            self.heard.add(self.make.reading(measured, measured.span), measured.span)
        for fine in praised(self.line):
            self.heard.add(self.make.fine(fine), fine.span)
        self._beginning()
        self._symptoms()

    def _named_readings(self) -> list[Measured]:
        if self.heard.has("reading"):
            return []
        numbers = free_numbers(self.line.words, self.line.numbers, self.line.mentions)
        return named_readings(self.line.words, numbers, self._placing(), self.book.quantities)

    def _placing(self) -> tuple[Mention, ...]:
        """Return the barrels named, "the others" among them."""
        asked = self.check.barrel if self.check else None
        return with_others(self.line.words, self.line.mentions, self.book.barrels.count, asked)

    def _beginning(self) -> None:
        for beginning in beginnings(self.line.joined):
            fact = Fact("began", value=beginning.value, words=self.line.typed(beginning.span))
            self.heard.add(fact, beginning.span)
            if beginning.event:
                for symptom in self.make.timed(beginning.span):
                    self.heard.add(symptom, beginning.span)

    def _symptoms(self) -> None:
        taken = [span for fact, span in self.heard.facts if fact.kind != "reading"]
        taken += [span for span in self.line.segments() if self._says_fine(span)]
        read_off = {at for first, end in self.heard.spans("reading") for at in range(first, end)}
        before: tuple[int, ...] = ()
        for found in unasked.told(self.line.words, self.line.segments(taken), self.book):
            if read_off and self._says_only(found.span, read_off):
                continue
            reads = any(at in read_off for at in range(*found.span)) and (
                not self._at_an_end(found.span) or self._says_only(found.span, read_off, end=False)
            )
            facts, before = self.make.symptoms(found, before)
            if self.check is not None:  # asked and not answered: it may be the answer in other words
                facts = [f if self._elsewhere(f, self.check) else replace(f, certain=False) for f in facts]
            if reads:  # the reading tells it; what else its words are like is asked at most
                facts = [replace(f, certain=f.kind == "danger") for f in facts if found.trust >= ALSO]
            for fact in facts:
                if self.check is None or found.trust >= SURE_ANSWER:
                    self.heard.add(fact, found.span)
        for span, fact in self.make.volunteered(
            self.line.segments(self.heard.spans()) if self.check is None else ()
        ):
            self.heard.add(fact, span)

    def _says_fine(self, span: Span) -> bool:
        """Tell whether a stretch says that the rest is fine: "all product fine otherwise"."""
        words = self.line.words[span[0] : span[1]]
        places = {at for m in self.line.mentions_in(span) if m.scope != "some" for at in range(m.start, m.end)}
        rest = [w.text for at, w in enumerate(words, start=span[0]) if at not in places and weighty(w)]
        return any(w.text in unasked.FINE for w in words) and all(t in unasked.FINE | REST for t in rest)

    def _elsewhere(self, fact: Fact, check: Check) -> bool:
        """Tell whether a fact names barrels, and not the one that was asked about."""
        return check.barrel is not None and bool(fact.which) and check.barrel not in fact.which

    def _at_an_end(self, span: Span) -> bool:
        """Tell whether a stretch has a number at either end of the display."""
        return any(
            number.value in {0.0, 99.0} for number in self.line.numbers if span[0] <= number.start < span[1]
        )

    def _says_only(self, span: Span, read_off: set[int], *, end: bool = True) -> bool:
        """Tell whether a stretch says nothing but a reading; with `end` one that is at no end of the display."""
        words = [(at, word) for at, word in enumerate(self.line.words[span[0] : span[1]], start=span[0])]
        read_off = read_off | {at for m in self.line.mentions for at in range(m.start, m.end)}
        return not (end and self._at_an_end(span)) and not any(
            at not in read_off and weighty(word) and word.text not in LINKS for at, word in words
        ) and not any(
            word.text in TELLING or (word.text in JUDGES and not self._leads_to_number(at))
            for at, word in words
        )

    def _leads_to_number(self, at: int) -> bool:
        """Tell whether a word belongs to the number that follows: "just under 70", "dropped to 45"."""
        starts = {number.start for number in self.line.numbers}
        return bool(starts & set(range(at + 1, at + 3)))

    def _only_barrels(self) -> bool:
        """Tell whether a line says which barrels are meant and nothing about them: "number three is the problem"."""
        named_at = {at for mention in self.line.mentions for at in range(mention.start, mention.end)}
        named_at |= {at for span in self.heard.spans() for at in range(*span)}
        rest = [word for at, word in enumerate(self.line.words) if at not in named_at and weighty(word)]
        some = [m for m in self.line.mentions if m.scope == "some"]
        away = any(found.barrels for found in praised(self.line)) or "out" in {w.text for w in self.line.words}
        return bool(some) and not away and all(word.text in TROUBLE for word in rest)

    def _unexplained(self) -> int:
        """Return how many words that carry meaning nothing was made of yet; barrels are not counted."""
        places = {at for span in self.heard.spans() for at in range(*span)}
        places |= {at for mention in self.line.mentions for at in range(mention.start, mention.end)}
        return sum(weighty(word) for at, word in enumerate(self.line.words) if at not in places)

    def _which(self) -> None:
        carried = self.heard.has("symptom", "reading", "danger") or any(
            fact.which for fact, _ in self.heard.facts
        )
        taken = {at for span in self.heard.spans() for at in range(*span)}
        mentions = [mention for mention in self.line.mentions if mention.start not in taken]
        fact = self.make.which(mentions)
        if fact is None or carried or self._unexplained() > ASIDE:
            return
        first, last = mentions[0], mentions[-1]
        self.heard.add(fact, (first.start, last.end))
