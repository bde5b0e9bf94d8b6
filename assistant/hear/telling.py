"""What a line tells without being asked: readings, what is fine, when it began, troubles, barrels."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.facts import Fact
from assistant.hear import cutting, unasked, volunteered
from assistant.hear.began import beginnings
from assistant.hear.denial import FINE
from assistant.hear.ear import ASIDE, SURE_ANSWER, Ear
from assistant.hear.english import FILLERS, listed
from assistant.hear.features import weighty
from assistant.hear.fine import Fine, praised
from assistant.hear.mention import joined
from assistant.hear.reach import SAYS_MORE, TROUBLE, reached
from assistant.hear.readings import LINKS, TELLING, quantity_words
from assistant.hear.reworded import JUDGING, crossed, judged
from assistant.hear.table import comparable
from assistant.hear.trust import trusted

if TYPE_CHECKING:
    from collections.abc import Sequence

    from assistant.hear.began import Beginning
    from assistant.hear.joined import Span
    from assistant.hear.mention import Mention
    from graph.machine import Check

TELLS = 2  # words that carry meaning, behind an event, to tell a trouble by themselves
RIVALS = 3
TOLD = 4  # words beside a time that may tell a trouble
GUESSED = 0.2  # how close to a symptom a line comes that tells nothing else
ALSO = 0.55  # how far a symptom is to be trusted to be offered where its words are a reading
JUDGED = 0.55  # likewise where a word judges the number
REST = listed("product drink drinks otherwise rest others everything slush absolutely")
# What people say when they point at a barrel.
POINTING = (
    listed(
        """
        it is the one that this just only on of for mate please think i and my sorry number barrel was said
        meant mean not no side tap its ones they are those these in at by to you we yes ok oh so well hand
        from actually now love sir talking about looking
        """
    )
    | FILLERS
)


CARRIERS = frozenset(["symptom", "not_symptom", "reading", "danger"])  # facts that carry a barrel
MARKS = frozenset(",.;:!?-")


@dataclass(frozen=True, slots=True)
class Teller(Ear):
    """Takes what a line volunteers."""

    def tell(self) -> None:
        for measured in self.named_readings():
            self.heard.add(self.make.reading(measured, measured.span), measured.span)
        for fine in praised(self.line):
            self.heard.add(self.make.fine(fine), fine.span)
        self._beginning()
        self._answers()
        self._symptoms()

    def _beginning(self) -> None:
        for found in beginnings(self.line.joined):
            beginning = replace(found, span=self._without_trouble(found)) if found.event else found
            fact = Fact("began", value=beginning.value, words=self.line.typed(beginning.span))
            self.heard.add(fact, beginning.span)
            if beginning.event:
                for symptom in self.make.timed(beginning):
                    self.heard.add(symptom, beginning.span)

    def _without_trouble(self, beginning: Beginning) -> Span:
        """Return the words of an event, without those behind it that by themselves tell a trouble.

        "Since they changed the bottle cherry spits" has no mark to part the two.
        """
        words, (first, end) = self.line.words, beginning.span
        if not beginning.named:
            return beginning.span
        best, cut = ALSO, end
        for at in range(max(beginning.named - 1, first + 1), end - 1):
            barrel = any(mention.start == at for mention in self.line.mentions)
            if at < beginning.named and not barrel:
                continue
            run = unasked.read(words, (at, end), self.book)
            if run is None or run.denied or run.ranked[0][0].check in self.book.timed:
                continue
            if run.trust > best and sum(map(weighty, words[at:end])) >= (1 if barrel else TELLS):
                best, cut = run.trust, at
        return first, cut

    def _symptoms(self) -> None:
        taken = [span for fact, span in self.heard.facts if fact.kind != "reading"]
        taken += [span for span in self.line.segments() if self._says_fine(span)]
        taken += self.heard.aside
        read_off = {at for first, end in self.heard.spans("correct") for at in range(first, end)}
        read_off |= {at for first, end in self.heard.spans("reading") for at in range(first, end)}
        before: tuple[int, ...] = ()
        for found in self._runs(taken, read_off):
            if read_off and self.says_only(found.span, read_off):
                continue
            reads = any(at in read_off for at in range(*found.span)) and (
                not self.at_an_end(found.span) or self.says_only(found.span, read_off, end=False)
            )
            facts, before = self.make.symptoms(found, before, self._read_of(found.span))
            if self.check is not None:  # asked and not answered: it may be the answer in other words
                facts = [f if self._elsewhere(f, self.check) else replace(f, certain=False) for f in facts]
            facts = self._beside_reading(facts, found) if reads else facts
            if found.ranked[0][0].check in self.book.timed and not self.heard.has("began"):
                facts = [fact for fact in facts if fact.certain]  # "the driver" alone tells of no beginning
            for fact in facts:
                if self.check is None or found.trust >= SURE_ANSWER:
                    self.heard.add(fact, found.span)
        self._at_last()

    def _at_last(self) -> None:
        """Take what stands in a roundabout way, dangers, and where nothing else was understood a guess."""
        if self.check is None:
            self._reworded()
        if self.check is None or self.check.base not in self.book.safety:
            self._unusual()
        if self.check is None:
            self._guess()

    def _beside_reading(self, facts: list[Fact], found: unasked.Told) -> list[Fact]:
        """Return what words tell of which a reading was made: that tells it, so it is asked at most."""
        read_off = {at for first, end in self.heard.spans("reading") for at in range(first, end)}
        read_off |= quantity_words(self.line.words, self.book.quantities)
        said = [(at, word) for at, word in enumerate(self.line.words) if found.span[0] <= at < found.span[1]]
        more = any(at not in read_off and weighty(word) and word.text not in LINKS for at, word in said)
        tells = any(word.text in JUDGING | TELLING for _, word in said) or self.at_an_end(found.span)
        if found.trust < (ALSO if more else JUDGED) or not (more or tells):
            return []  # "gas supply is at 70" is no trouble
        apart = self._said_apart(found)
        return [replace(f, certain=f.certain and (apart or f.kind == "danger")) for f in facts]

    def _runs(self, taken: list[Span], read_off: set[int]) -> list[unasked.Told]:
        """Return what the line tells; what hangs loosely on a reading is listened to without its words."""
        found: list[unasked.Told] = []
        readings = self.heard.spans("reading")
        for run in cutting.told(self.line.words, self.line.segments(taken), self.book):
            if run.trust >= ALSO or not read_off & set(range(*run.span)) or self.at_an_end(run.span):
                found.append(run)
                continue
            beside = self.line.segments([*taken, *readings])
            within = [part for part in beside if run.span[0] <= part[0] and part[1] <= run.span[1]]
            found.extend(cutting.told(self.line.words, within, self.book) if within else [run])
        return found

    def _said_apart(self, found: unasked.Told) -> bool:
        """Tell whether a part without figures says the same plainly: "water low warning, it shows 17"."""
        first, end = found.span
        figures = {at for n in self.line.numbers for at in range(n.start, n.end)}
        for part in self.line.segments():
            if first <= part[0] and part[1] <= end and not figures & set(range(*part)):
                run = unasked.read(self.line.words, part, self.book)
                same = run is not None and run.ranked[0][0] == found.ranked[0][0] and not run.denied
                if run is not None and same and trusted(run, self.line, self.book) == "taken":
                    return True
        return False

    def _read_of(self, span: Span) -> tuple[int, ...]:
        """Return the barrels of a reading whose words reach into a stretch: "cola pressure, stays at 0"."""
        readings = [(fact.which, there) for fact, there in self.heard.facts if fact.kind == "reading"]
        return next((which for which, there in readings if there[0] < span[1] and span[0] < there[1]), ())

    def _reworded(self) -> None:
        """Offer what the line tells in a roundabout way, with what its words are like as they stand."""
        found = crossed(self.line, self.book.barrels.called)
        if found is not None:
            self._offer(unasked.nearest(found.plainly, found.span, self.book), found.barrels)
        taken = {at for n in self.line.numbers for at in range(n.start, n.end)}
        taken |= {at for m in self.line.mentions for at in range(m.start, m.end)}
        taken |= quantity_words(self.line.words, self.book.quantities)
        taken |= {at for span in self.heard.spans("correct") for at in range(*span)}
        for fact, span in [pair for pair in self.heard.facts if pair[0].kind == "reading"]:
            title = self.make.title(fact)
            words = judged(self.line, span, title, taken) if title else None
            if words is not None:
                self._offer(unasked.nearest(words[1], words[0], self.book), fact.which)

    def _offer(self, run: unasked.Told, barrels: tuple[int, ...]) -> None:
        """Offer a symptom beside what is doubtful of the same words, unless they say the same, or plainly."""
        begin, end = run.span
        beside = [(f, s) for f, s in self.heard.facts if f.kind == "symptom" and s[0] < end and begin < s[1]]
        plain = [f for f, s in beside if f.certain and sum(map(weighty, self.line.words[s[0] : s[1]])) > 1]
        if run.trust < JUDGED or plain:
            return
        offered = [
            replace(f, certain=False) for f in self.make.symptoms(run, barrels)[0] if f.kind == "symptom"
        ]
        first = next((f for f, _ in beside), None)
        if not offered or (first is not None and first.ref == offered[0].ref):
            return
        rivals = [
            offered[0],
            *(replace(f, certain=False, words=offered[0].words) for f, _ in beside),
            *offered[1:],
        ]
        self.heard.facts[:] = [pair for pair in self.heard.facts if pair not in beside]
        for fact in rivals[:RIVALS]:
            self.heard.add(fact, run.span)

    def _guess(self) -> None:
        """Offer the nearest symptoms at a low bar where no trouble was understood and it is no chatter."""
        said = comparable(self.line.words, self.book.barrels)
        well = unasked.CLEARED.search(self.line.joined.text) or any(w.text in FINE for w in said)
        told = {fact.kind for fact, _ in self.heard.facts} - {"began"}
        if told or well or self.whole in self.heard.aside or not any(map(weighty, said)):
            return
        free = self.line.segments(self.heard.spans())
        span = (free[0][0], free[-1][1]) if self.heard.facts and free else self.whole
        if self.heard.facts and span[1] - span[0] < TOLD:
            return  # "it began on Friday"
        run = unasked.nearest(self.line.words[span[0] : span[1]], span, self.book, contrary=0.0)
        near = run.score >= GUESSED
        facts = self.make.symptoms(replace(run, sure=False), (), alone=True)[0] if near else []
        typed = self.line.typed(span)
        for fact in [*self._guessed_answer(), *facts][:RIVALS]:
            self.heard.add(replace(fact, words=typed), span)

    def _guessed_answer(self) -> list[Fact]:
        """Return the answer that a line which tells nothing else may give to some question, none if far."""
        found = volunteered.told(self.line, self.line.segments(self.heard.spans()), self.book)
        best = max(found, key=lambda answer: answer.probability, default=None)
        if best is None or best.probability < max(volunteered.GUESSED, best.signs.symptom):
            return []
        return self.make.volunteered(best, certain=False)[:1]

    def _unusual(self) -> None:
        """Take the dangers and the unusual answers that nobody asked for."""
        for span, fact in self.make.endangered(self.line.segments()):
            beside = [(f, s) for f, s in self.heard.facts if s[0] < span[1] and span[0] < s[1]]
            told = any((f.id, f.value) == (fact.id, fact.value) for f, _ in beside)
            surer = (f for f, _ in beside if f.kind == "answer" or (f.kind == "symptom" and f.certain))
            likest = max((f.score for f in surer), default=0.0)
            if told or fact.score <= likest:
                continue
            if not fact.certain:
                self._alert(fact, span, [pair for pair in beside if not pair[0].certain])
                continue
            lost = [pair for pair in beside if not self._alarming(pair[0])]  # it outweighs what is less alike
            self.heard.facts[:] = [pair for pair in self.heard.facts if pair not in lost]
            self.heard.add(fact, span)

    def _alert(self, fact: Fact, span: Span, rivals: list[tuple[Fact, Span]]) -> None:
        """Offer a danger before what else the same words may tell."""
        words = rivals[0][0].words if rivals else fact.words
        rivals = [pair for pair in rivals if pair[0].words == words]
        self.heard.facts[:] = [pair for pair in self.heard.facts if pair not in rivals]
        danger = [(replace(fact, words=words), span)]
        agrees = bool(rivals) and self._alarming(rivals[0][0])  # the symptom says it and more
        for one, at in [*rivals[:1], *danger, *rivals[1:]] if agrees else [*danger, *rivals]:
            self.heard.add(one, at)

    def _alarming(self, fact: Fact) -> bool:
        """Tell whether a fact is a symptom that is dangerous by itself, so that a danger agrees with it."""
        return fact.kind == "symptom" and fact.id.partition("@")[0] in self.book.dangers

    def _answers(self) -> None:
        """Take what answers a check that nobody asked, or another than the one that was asked."""
        taken = [span for span in self.line.segments() if self._says_fine(span)]
        free = self.line.segments([*self.heard.spans(), *taken, *self.heard.aside])
        asked = self.check.base if self.check else ""
        for answer in volunteered.told(self.line, free, self.book, asked):
            if answer.probability < max(volunteered.OFFERED, answer.signs.symptom):
                continue
            facts = self.make.volunteered(answer, certain=answer.probability >= volunteered.TAKEN)
            run = None if facts[0].certain else unasked.read(self.line.words, answer.span, self.book)
            told = self.make.symptoms(run, ())[0] if run is not None else []
            symptoms = [replace(f, certain=False) for f in told if f.kind == "symptom"]
            for fact in [facts[0], *symptoms, *facts[1:]][:RIVALS]:  # it may be a trouble after all
                self.heard.add(fact, answer.span)

    def _says_fine(self, span: Span) -> bool:
        """Tell whether a stretch says that the rest is fine: "all product fine otherwise"."""
        words = self.line.words[span[0] : span[1]]
        places = {
            at for m in self.line.mentions_in(span) if m.scope != "some" for at in range(m.start, m.end)
        }
        rest = [w.text for at, w in enumerate(words, start=span[0]) if at not in places and weighty(w)]
        return any(w.text in FINE for w in words) and all(t in FINE | REST for t in rest)

    def _elsewhere(self, fact: Fact, check: Check) -> bool:
        """Tell whether a fact names barrels, and not the one that was asked about."""
        return check.barrel is not None and bool(fact.which) and check.barrel not in fact.which

    def only_barrels(self) -> bool:
        """Tell whether a line says which barrels are meant and nothing of them: "it's number three"."""
        named_at = {at for mention in self.line.mentions for at in range(mention.start, mention.end)}
        named_at |= {at for span in self.heard.spans() for at in range(*span)}
        rest = [word for at, word in enumerate(self.line.words) if at not in named_at and weighty(word)]
        some = [m for m in self.line.mentions if m.scope == "some"]
        away = any(found.barrels for found in praised(self.line)) or "out" in {
            w.text for w in self.line.words
        }
        return bool(some) and not away and all(word.text in TROUBLE for word in rest)

    def _between(self, mentions: Sequence[Mention]) -> list[list[str]]:
        """Return the words between mentions that follow each other, none where nothing stands there."""
        gaps = [self.line.words[one.end : other.start] for one, other in pairwise(mentions)]
        return [[word.text for word in gap] for gap in gaps if gap]

    def reach(self) -> bool:
        """Take the barrels of a line that says of some that they are meant, and perhaps of others praise."""
        told = {word.text for word in self.line.words}
        found = reached(self.line, self.book.barrels.count) if not told & SAYS_MORE else None
        some = [mention for mention in self.line.mentions if mention.scope == "some"]
        parted = all(
            joined(gap) or MARKS & set(gap) for gap in self._between(some)
        )  # not "cola tap gives blue"
        if found is None or not (found.barrels and some and parted):
            return False
        if found.fine:
            self.heard.add(self.make.fine(Fine("", found.fine, found.praise)), found.praise)
        self.heard.add(self.make.barrels(found.barrels, self.whole), self.whole)
        return True

    def _unexplained(self) -> int:
        """Return how many words that carry meaning nothing was made of yet; barrels are not counted."""
        places = {at for span in self.heard.spans() for at in range(*span)}
        places |= {at for mention in self.line.mentions for at in range(mention.start, mention.end)}
        return sum(weighty(word) for at, word in enumerate(self.line.words) if at not in places)

    def _more_said(self, mentions: Sequence[Mention], taken: set[int]) -> bool:
        """Tell whether small words beside the barrels tell something: "nothing would come out the blue"."""
        named_at = {at for mention in mentions for at in range(mention.start, mention.end)} | taken
        named_at |= {at for span in self.heard.spans("answer") for at in range(*span)}
        rest = [word for at, word in enumerate(self.line.words) if at not in named_at and not word.is_mark]
        return sum(word.text not in POINTING for word in rest) > TELLS

    def which(self) -> None:
        """Take the barrels that are named, nothing else of them being told."""
        firsts = {fact.words: fact for fact, _ in reversed(self.heard.facts) if not fact.certain}
        told = [f for f, _ in self.heard.facts if f.kind != "answer" and (f.certain or firsts[f.words] is f)]
        carried = any(fact.which or fact.kind in CARRIERS for fact in told)
        taken = {at for fact, span in self.heard.facts if fact.kind != "answer" for at in range(*span)}
        mentions = [mention for mention in self.line.mentions if mention.start not in taken]
        fact = self.make.which(mentions)
        if any(word.text in FINE for word in self.line.words):
            return  # "all good now"
        if any(number.unit for number in self.line.numbers):
            return  # "one psi on each"
        apart = not all(joined(gap) or "not" in gap for gap in self._between(mentions))
        lone = self.check is not None and not any(m.scope == "some" for m in mentions)  # "both", of anything
        if apart or lone:
            return
        if fact is None or carried or self._unexplained() > ASIDE or self._more_said(mentions, taken):
            return
        first, last = mentions[0], mentions[-1]
        self.heard.add(fact, (first.start, last.end))
