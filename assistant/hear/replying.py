"""The reply to what was asked: an outcome, a number, barrels, and what is told beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from assistant.facts import Fact
from assistant.hear import asked as answering
from assistant.hear import cutting, replies, surety, unasked, volunteered
from assistant.hear.barrel_words import EXCEPT, NAMES_ASKED, SIDE_WORDS
from assistant.hear.began import beginnings
from assistant.hear.ear import Ear
from assistant.hear.features import weighty
from assistant.hear.figures import Figures, is_difference
from assistant.hear.fine import Fine, praised
from assistant.hear.mention import is_denied, text_at
from assistant.hear.polarity import NEGATIONS
from assistant.hear.reach import reached
from assistant.hear.trust import trusted

if TYPE_CHECKING:
    from assistant.hear.asked import Choice
    from assistant.hear.joined import Span
    from assistant.hear.mention import Mention
    from graph.machine import Check

CLEAR = 0.2  # how far ahead of the next outcome, or of what another part tells, is clear
WEAK = 0.10  # closer than this, or it is no answer
NARROW = 0.1  # how far ahead a danger in one part must be to outweigh what the whole line says plainly
VAGUE = 0.3  # below this, parts of the line are tried alone
PLAIN_TALK = 0.5  # an answer must come this close to beat a yes, a no or "can't" in the same line
NOT_UNSURE = 0.65  # likewise "not sure"
PLAINLY_MORE = 0.75  # likewise, to be taken without asking again
EXTRA, FOREIGN = 0.55, 0.4  # what is told beside an answer: how close to a symptom, how far from the outcomes
BOXES = frozenset(["box", "boxes", "bag", "bags", "syrup", "syrups", "carton"])
FARTHER = 0.4  # how much closer words come to a trouble than to an answer, to be none
WORKS = frozenset(
    ["run", "runs", "running", "work", "works", "working", "pour", "pours", "pouring", "fine", "ok"]
)
WELL = 0.35  # how close words come to what is usual to tell it of a barrel
REACHES = frozenset(["all", "one", "some"])  # outcomes of a check that asks which barrels


@dataclass(frozen=True, slots=True)
class Replier(Ear):
    """Takes the reply to the check that was asked."""

    def take(self, check: Check) -> bool:
        """Take the answer to what was asked; tell whether there is one."""
        if check.kind == "symptom":
            return self._symptom_reply(check)
        figures = Figures(self.line, self.check, self.book, self.heard, self.make)
        if self._reach(check) or figures.take(check):
            return True
        bare, talk = replies.bare(self.line.plain), self.talk()
        if bare == "done" or self._bare_barrels(check):
            return False  # that something was done, or "cherry" alone, answers no question
        if self._all_well(check):
            return True
        unsure = talk is not None and talk.kind == "unsure"
        choice = self._choice(check, talk.span if talk is not None and unsure else (0, 0))
        enough = NOT_UNSURE if unsure else PLAIN_TALK if talk or bare else WEAK
        only_so = choice.score < PLAIN_TALK and bool(self.said_so())
        story = check.base in self.book.safety and choice.score < VAGUE and self._tells_trouble(choice.score)
        far = choice.score < enough or story
        if far or (bare and choice.margin < CLEAR) or only_so:
            return False
        self._outcomes(check, choice)
        return True

    def _bare_barrels(self, check: Check) -> bool:
        """Tell whether a reply only names barrels, to a check that they do not answer plainly."""
        named_at = {at for m in self.line.mentions for at in range(m.start, m.end)}
        rest = [word for at, word in enumerate(self.line.words) if at not in named_at]
        if not named_at or any(weighty(word) or word.text in NEGATIONS for word in rest):
            return False
        ones = [outcome for outcome in check.outcomes if "one" in outcome.id.split("_")]
        every = all(mention.scope != "some" for mention in self.line.mentions)
        return not every and len(ones) != 1

    def _tells_trouble(self, answer: float) -> bool:
        """Tell whether a part of the line tells a trouble, far closer than the words come to an answer."""
        for part in self.line.segments():
            found = unasked.read(self.line.words, part, self.book)
            plain = found is not None and not found.denied and found.score >= answer + FARTHER
            if found is not None and plain and trusted(found, self.line, self.book) == "taken":
                return True
        return False

    def _choice(self, check: Check, without: Span) -> Choice:
        """Return the outcomes by the words that tell most: the line, or a part of it that tells trouble."""
        words, parts = self.line.words, self.line.segments()
        choice = answering.whole(check, (*words[: without[0]], *words[without[1] :]), self.book)
        if choice.score < VAGUE:
            part = answering.part(check, words, self.line.segments(self.heard.spans()), self.book)
            choice = part if part is not None and part.score > choice.score + CLEAR else choice
        if check.usual >= 0 and choice.ranked[0][0].outcome == check.outcomes[check.usual].id:
            denies = (opening := replies.leading(self.line.plain)) is not None and opening.kind == "no"
            plainly = denies and choice.score >= PLAIN_TALK and not any(word.text == "but" for word in words)
            trouble = None if plainly else answering.troubled(check, words, parts, self.book)
            choice = trouble or choice
            self.heard.told_in = trouble.span if trouble else None
        feared = answering.feared(check, words, parts, self.book)
        if feared is None or (feared.margin < NARROW and choice.margin >= CLEAR):
            return choice  # "puddle, but nowhere near the sockets": a part alone says too little
        return feared

    def _outcomes(self, check: Check, choice: Choice) -> None:
        """Take the best outcome if it is certain, else the best three as rivals."""
        seen = surety.signs(check, choice, self.line, self.book, talks=self.talk() is not None)
        best = check.outcomes[check.outcome_index(choice.ranked[0][0].outcome)]
        feared = best.danger and check.base in self.book.safety
        certain = surety.probability(seen) >= (surety.FEARED if feared else surety.TAKEN)
        usual = check.usual >= 0 and best is check.outcomes[check.usual]
        certain = certain and not (usual and self._excepts(check))
        for meaning, score in choice.ranked[: 1 if certain else 3]:
            if score >= WEAK:
                fact = self.make.outcome(check, meaning.outcome, score, self.whole, certain=certain)
                self.heard.add(fact, self.whole)

    def _all_well(self, check: Check) -> bool:
        """Take "all clear" for the denial that a question about danger has among its outcomes."""
        usual = check.outcomes[check.usual] if check.usual >= 0 and check.base in self.book.safety else None
        if usual is None or not usual.label.startswith("No") or not replies.all_well(self.line.plain):
            return False
        self.heard.add(self.make.outcome(check, usual.id, 1.0, self.whole), self.whole)
        return True

    def _reach(self, check: Check) -> bool:
        """Answer how many barrels are affected where the line names them and says nothing else."""
        outcomes = {outcome.id for outcome in check.outcomes}
        if not outcomes >= REACHES:
            return False
        found = reached(self.line, self.book.barrels.count)
        if found is None:
            return False
        outcome = "all" if found.every else "one" if len(found.barrels) == 1 else "some"
        self.heard.add(self.make.outcome(check, outcome, 1.0, self.whole), self.whole)
        if found.fine:
            self.heard.add(self.make.fine(Fine("", found.fine, found.praise)), found.praise)
        self.heard.add(self.make.barrels(found.barrels, self.whole), self.whole)
        return True

    def _symptom_reply(self, check: Check) -> bool:
        if self._of_another(check):
            return False
        found = unasked.read(self.line.words, self.whole, self.book)
        meant = self.book.siblings.get(check.base, (check.base,))
        opening = replies.leading(self.line.plain)
        turns = any(word.text in {"but", "except", "though", "sorry"} for word in self.line.words)
        judged = replies.closing(self.line.plain)
        about = found is not None and found.ranked[0][0].check in meant
        if not judged and (found is None or not about):
            if opening is None or turns:
                return False
            outcome = "absent" if opening.kind == "no" else "present"  # "no, it pours, just watery"
            self.heard.add(self.make.outcome(check, outcome, 1.0, opening.span), opening.span)
            return True
        denied = judged == "no" if judged else found is not None and found.denied
        score = found.score if found is not None and about else 1.0
        fact = self.make.outcome(check, "absent" if denied else "present", score, self.whole)
        self.heard.add(fact, self.whole)
        return True

    def _of_another(self, check: Check) -> bool:
        """Tell whether a line speaks of another barrel than the one asked about, or calls that one fine.

        "No", "not the cherry" or "cherry is fine" then denies what was asked.
        """
        fine = {barrel for found in praised(self.line) for barrel in found.barrels}
        denied = fine | {
            barrel for m in self.line.mentions for barrel in m.barrels if is_denied(m, self.line.words)
        }
        told = {barrel for m in self.line.mentions if m.scope == "some" for barrel in m.barrels} - denied
        if check.barrel is None or check.barrel in told or not told | denied & {check.barrel}:
            return False
        opening = replies.leading(self.line.plain)
        says_no = opening is not None and opening.kind == "no"
        if check.barrel in denied or says_no:
            span = opening.span if opening is not None and says_no else (0, 1)
            self.heard.add(self.make.outcome(check, "absent", 1.0, span), span)
            self._instead(check, told)
        return True

    def _instead(self, check: Check, told: set[int]) -> None:
        """Take the trouble asked about for another barrel where only that is said: "no, it's the cherry"."""
        named_at = {at for m in self.line.mentions for at in range(m.start, m.end)}
        if any(weighty(word) for at, word in enumerate(self.line.words) if at not in named_at):
            return
        for mention in (m for m in self.line.mentions if m.scope == "some"):
            for barrel in sorted(set(mention.barrels) & told):
                words = self.line.typed((mention.start, mention.end))
                name = f"{check.base}@{barrel}"
                fact = Fact("symptom", id=name, ref=check.ref, which=(barrel,), words=words)
                self.heard.add(fact, (mention.start, mention.end))

    def _began_or_fine(self, check: Check) -> None:
        """Take when it began, and what is called fine, where an answer stands beside it."""
        for found in beginnings(self.line.joined):
            said = {word.text for word in self.line.words[slice(*found.span)]}
            skilled = (
                "operator" not in check.roles
            )  # "shifted it over, and now ..." is what was asked to be done
            timed = (skilled or self.heard.has("reading")) and not said & {"since", "after"}
            if not timed and self._beside_answer(found.span, check):
                fact = Fact("began", value=found.value, words=self.line.typed(found.span))
                self.heard.add(fact, found.span)
        for fine in praised(self.line):
            if fine.topic and self._beside_answer(fine.span, check):
                self.heard.add(self.make.fine(fine), fine.span)

    def _beside_answer(self, span: Span, check: Check) -> bool:
        """Tell whether words are no part of an answer that the rest of the line gives."""
        words = self.line.words
        rest = (*words[: span[0]], *words[span[1] :])
        numbers = {at for n in self.line.numbers for at in range(n.start, n.end)} - set(range(*span))
        if not numbers and not any(map(weighty, rest)):
            return bool(rest) and answering.whole(check, rest, self.book).score >= PLAIN_TALK
        told = bool(numbers) and self.heard.has("reading")
        return told or answering.whole(check, words[span[0] : span[1]], self.book).score <= FOREIGN

    def which(self, check: Check) -> None:
        """Take the barrels named in an answer, unless the question is which flavour is where."""
        if self.heard.has("which"):
            return
        aside = {at for span in self.heard.spans("symptom", "not_symptom") for at in range(*span)}
        for fine in praised(self.line):
            if fine.barrels and fine.span != self.whole:
                self.heard.add(self.make.fine(fine), fine.span)
                aside.update(range(*fine.span))
        told_in = self.heard.told_in or self.whole
        mentions = [m for m in self.line.mentions_in(told_in) if m.start not in aside]
        mentions = [m for m in mentions if m.scope == "some" or not is_denied(m, self.line.words)]
        asks_names = f"{check.title} {check.ask.get('operator', '')}".lower()
        about_reach = {"one", "all"} <= {part for o in check.outcomes for part in o.id.split("_")}
        names = any(word in asks_names for word in NAMES_ASKED)
        if not mentions or (names and not about_reach):
            return
        boxes = not about_reach or check.barrel is not None
        mentions = [m for m in mentions if not (boxes and self._is_box(m))]
        mentions = [m for m in mentions if not self._told_elsewhere(check, m)]
        if check.chapter not in self.book.sided:  # "it's over to the left one", of bottles
            mentions = [m for m in mentions if not self._by_side(m)]
        if "operator" not in check.roles:  # of a lead: "both ends unplugged"
            mentions = [m for m in mentions if self.line.words[m.end - 1].text != "ends"]
        mentions = self._troubled(check, [self._exception(check, mention) for mention in mentions])
        if not mentions:
            return
        some = any(mention.scope == "some" for mention in mentions)
        asks_which = {outcome.id for outcome in check.outcomes} >= REACHES
        fact = self.make.which(mentions) if some or asks_which else None
        every = fact is not None and len(fact.which) == self.book.barrels.count
        if fact is not None and not (about_reach or asks_which) and check.barrel is None:
            fact = replace(fact, certain=False)  # the question is not of barrels
        if fact is not None and (asks_which or not every):  # that it is so of all is the answer
            self.heard.add(fact, (mentions[0].start, mentions[-1].end))

    def _told_elsewhere(self, check: Check, mention: Mention) -> bool:
        """Tell whether a barrel is named in a part that tells something else than the answer."""
        parts = self.line.segments()
        here = next((part for part in parts if part[0] <= mention.start < part[1]), None)
        if check.barrel is not None or here is None or len(parts) == 1:
            return False
        found = unasked.read(self.line.words, here, self.book)
        told = found is not None and found.score >= EXTRA
        return told and answering.whole(check, self.line.words[slice(*here)], self.book).score <= FOREIGN

    def _usual(self, check: Check, span: Span) -> bool:
        """Tell whether words by themselves tell what is usual of a check."""
        if check.kind == "symptom" or check.usual < 0 or span[0] >= span[1]:
            return False
        choice = answering.whole(check, self.line.words[span[0] : span[1]], self.book)
        return choice.ranked[0][0].outcome == check.outcomes[check.usual].id and choice.score >= WELL

    def _exception(self, check: Check, mention: Mention) -> Mention:
        """Return a mention; of "bubbles in all but the blue" the blue, where what is said of all is usual."""
        at = next((at for at in range(mention.start, mention.end) if self.line.words[at].text in EXCEPT), -1)
        others = set(range(1, self.book.barrels.count + 1)) - set(mention.barrels)
        if at < 0 or not others or not self._usual(check, (0, at)):
            return mention
        return replace(mention, barrels=tuple(sorted(others)))

    def _excepts(self, check: Check) -> bool:
        """Tell whether a line excepts a barrel from what it tells: "all bar the blue", "blue does not"."""
        some = [mention for mention in self.line.mentions if mention.scope == "some"]
        if any(self._exception(check, mention) != mention for mention in some):
            return True
        for first, end in self.line.segments():
            words = self.line.words[first:end]
            named_at = {at for m in some for at in range(m.start, m.end)}
            rest = [w for at, w in enumerate(words, start=first) if at not in named_at and weighty(w)]
            here = any(first <= m.start < end for m in some)
            if here and any(w.text in NEGATIONS for w in words) and all(w.text in NEGATIONS for w in rest):
                return True
        return False

    def _troubled(self, check: Check, mentions: list[Mention]) -> list[Mention]:
        """Return the mentions without those of which a part of the line tells what is usual."""
        parts = self.line.segments()
        well = [part for part in parts if self._usual(check, part)]
        well += [part for part in parts if self._only_praises(part)]
        left = [m for m in mentions if not any(first <= m.start < end for first, end in well)]
        return left if any(m.scope == "some" for m in left) and len(parts) > 1 else mentions

    def _only_praises(self, span: Span) -> bool:
        """Tell whether a part of the line says of barrels only that they do as they should: "cola runs"."""
        named_at = {at for m in self.line.mentions for at in range(m.start, m.end)}
        rest = [self.line.words[at] for at in range(*span) if at not in named_at]
        told = [word.text for word in rest if weighty(word)]
        return bool(told) and not any(w.text in NEGATIONS for w in rest) and set(told) <= WORKS

    def _by_side(self, mention: Mention) -> bool:
        """Tell whether a mention names barrels by no more than where they stand."""
        return any(word.text in SIDE_WORDS for word in self.line.words[mention.start : mention.end])

    def _is_box(self, mention: Mention) -> bool:
        """Tell whether a name is that of a box: "put a box of cherry on" is not about the barrel."""
        words = self.line.words
        box_of = text_at(words, mention.start - 1) == "of" and text_at(words, mention.start - 2) in BOXES
        return box_of or text_at(words, mention.end) in BOXES

    def _of_others(self, check: Check, segments: list[Span]) -> None:
        """Take answers to other checks, and dangers, told beside the answer."""
        for answer in volunteered.told(self.line, segments, self.book, check.base):
            words = self.line.words[answer.span[0] : answer.span[1]]
            likely = answer.probability >= max(volunteered.OFFERED, answer.signs.symptom)
            if likely and answering.whole(check, words, self.book).score <= FOREIGN:
                for fact in self.make.volunteered(answer, certain=False):
                    self.heard.add(fact, answer.span)
        for span, fact in self.make.endangered(segments) if check.base not in self.book.safety else ():
            self.heard.add(fact, span)

    def beside(self) -> None:
        """Take what is told beside the answer, if it is clear and not about what was asked.

        What a technician measures in answer to a check is part of the answer.
        """
        skilled = self.check is not None and "operator" not in self.check.roles and not self.check.reading
        told = skilled or (self.check is not None and self.check.base in self.book.safety)
        told = told or self.heard.has("which")  # every figure named a barrel
        for measured in () if told else self.named_readings():  # a number in such an answer is part of it
            if (
                self.check is not None
                and not self.check.reading
                and is_difference(self.line.words, measured.number)
            ):
                continue
            self.heard.add(self.make.reading(measured, measured.span), measured.span)
        if self.check is None or self.check.kind == "symptom":
            return
        pair = Figures(self.line, self.check, self.book, self.heard, self.make).pair(self.check)
        for measured in () if self.heard.has("reading") else pair:
            self.heard.add(self.make.reading(measured, measured.span), measured.span)
        self._began_or_fine(self.check)
        if len(self.line.segments()) < 2:  # noqa: PLR2004 - one is the answer
            return
        first = self.line.segments()[0]
        segments = [
            part for part in self.line.segments(self.heard.spans("began", "fine")) if part[0] >= first[1]
        ]
        self._of_others(self.check, segments)
        read_off = {at for first, end in self.heard.spans("reading") for at in range(first, end)}
        for found in cutting.told(self.line.words, segments, self.book):
            words = self.line.words[found.span[0] : found.span[1]]
            figures = {at for n in self.line.numbers for at in range(n.start, n.end)}
            apart = self.heard.has("reading") and not figures & set(
                range(*found.span)
            )  # no part of the answer
            near = 0.0 if apart else answering.whole(self.check, words, self.book).score
            if found.score < EXTRA or near > FOREIGN or self.says_only(found.span, read_off):
                continue
            clear = found.score >= PLAINLY_MORE and not skilled
            for fact in self.make.symptoms(found, ())[0]:
                self.heard.add(
                    replace(fact, certain=fact.certain and (clear or fact.kind == "danger")), found.span
                )
