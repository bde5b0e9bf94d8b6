"""The real conversation: a case from a pack, the engine, and what hears.

It only puts together what other modules do; the phrases of the pack are made ready at the first line
that must be heard, so that the first prompt does not wait for them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.conversation import SlashWord
from assistant.engine import WORDS, open_state, status, step, wanted
from assistant.engine.events import Chose, Event, Measured, Said
from assistant.errors import WrongUse
from assistant.facts import Fact
from assistant.library import DEFAULT_PROFILE, load_case
from assistant.record import Header
from assistant.shell_wording import no_pack

if TYPE_CHECKING:
    from collections.abc import Mapping

    from assistant.conversation import Setup
    from assistant.engine import State, Status
    from assistant.engine.effects import Effect
    from assistant.engine.placing import Wanted
    from assistant.hear.phrasebook import Phrasebook
    from assistant.history import Past, Repetition
    from assistant.upkeep import Upkeep
    from graph import Case, Machine

UNKNOWN = ("",)  # flavours of a machine that nobody has named: its barrels go by their numbers


@dataclass(frozen=True)
class Live:
    """A conversation about one machine of one pack."""

    case: Case
    setup: Setup

    @classmethod
    def of(cls, setup: Setup) -> Live:
        """Return the conversation that a setup asks for; raise WrongUse, PackMissing or PackInvalid."""
        if setup.pack and not Path(setup.pack).is_dir():
            raise WrongUse(no_pack(setup.pack))
        switches = {pair[0]: pair[1] for pair in setup.switches}
        profile = setup.profile or DEFAULT_PROFILE
        unknown = not setup.profile and not setup.flavours  # which machine it is has not been said
        setup = replace(setup, flavours=UNKNOWN if unknown else setup.flavours)
        case = load_case(
            setup.pack or None,
            profile,
            flavours=setup.flavours,
            switches=switches,
            factors=dict(setup.factors),
            costs=dict(setup.costs),
        )
        return cls(case, setup)

    @cached_property
    def phrasebook(self) -> Phrasebook:
        """Return the pack's phrases, ready for comparing."""
        from assistant.hear.shelf import phrasebook  # noqa: PLC0415 -- not before it is needed

        return phrasebook(self.machine)

    @property
    def machine(self) -> Machine:
        """Return the machine that this is about."""
        return self.case.machine

    def header(self, program: str, started: str) -> Header:
        """Return the head of a new record."""
        return Header(
            program,
            self.machine.pack,
            self.machine.pack_version,
            self.machine.digest,
            self.machine.profile,
            started,
            self.setup.flavours,
            self.setup.switches,
            self.setup.by,
            factors=self.setup.factors,
            costs=self.setup.costs,
            titles=(
                (self.machine.pack, self.machine.pack_title),
                (self.machine.profile, self.machine.profile_title),
                *self.machine.roles.items(),
            ),
        )

    def repetition(self, past: tuple[Past, ...]) -> Repetition:
        """Return what earlier sessions about the same machine say of this one."""
        from assistant.history import repetition  # noqa: PLC0415 -- most sites have no history

        return repetition(self.machine, past)

    def upkeep(self, ages: Mapping[str, float], past: tuple[Past, ...]) -> Upkeep:
        """Return what ages in days of the machine and its service, and earlier sessions, say of it."""
        from assistant.upkeep import upkeep  # noqa: PLC0415 -- likewise

        return upkeep(self.machine, ages, past)

    def open(self) -> State:
        """Return the state before the first event."""
        return open_state(self.case, by=self.setup.by)

    def step(self, state: State, event: Event, at: str = "") -> tuple[State, tuple[Effect, ...]]:
        """Return the next state and what is to be shown; `at` is when the event happened."""
        return step(self.case, state, event, at)

    def wanted(self, state: State) -> Wanted | None:
        """Return what was said of which machine it is, where that is still to be looked up."""
        return wanted(state)

    def status(self, state: State) -> Status:
        """Return where the conversation stands."""
        return status(self.case, state)

    def hear(self, text: str, asked: str) -> tuple[tuple[Fact, ...], str]:
        """Return what was understood of a line, and its rest."""
        from assistant.hear import hear  # noqa: PLC0415 -- likewise

        return hear(self.machine, text, asked or None, self.phrasebook)

    def roles(self) -> tuple[str, ...]:
        """Return who may take part."""
        return tuple(self.machine.roles)

    def words(self) -> tuple[SlashWord, ...]:
        """Return the slash words that the engine knows."""
        return tuple(SlashWord(name, word.help) for name, word in WORDS.items())

    def carried(self, event: Event, asked: str) -> Event | None:
        """Return an earlier event as this pack can take it, told out of turn; None if it cannot."""
        match event:
            case Chose():
                fact = self._answer(asked, event.option)
                return Said(event.text, (fact,)) if fact is not None else None
            case Measured():
                quantity = event.quantity or self._reading(asked)
                known = quantity in {each.id for each in self.machine.quantities}
                return replace(event, quantity=quantity) if known else None
            case Said():
                facts = tuple(fact for fact in event.facts if self._known(fact))
                return replace(event, facts=facts) if facts else None
        return event

    def _answer(self, asked: str, option: str) -> Fact | None:
        """Return an answer to a check or symptom as a fact; None where there is no such outcome."""
        if not self.case.has_check(asked) or self.case.check(asked).outcome_index(option) < 0:
            return None
        check = self.case.check(asked)
        which = () if check.barrel is None else (check.barrel,)
        if check.kind == "symptom":
            return Fact("symptom" if option == "present" else "not_symptom", check.id, check.ref, which=which)
        return Fact("answer", check.id, check.ref, option, which=which)

    def _reading(self, asked: str) -> str:
        return self.case.check(asked).reading if self.case.has_check(asked) else ""

    def _known(self, fact: Fact) -> bool:
        """Return whether what a fact names is on this machine; one that names nothing is."""
        return not fact.id or fact.id in self._names

    @cached_property
    def _names(self) -> frozenset[str]:
        """Return every name that a fact may go by."""
        machine = self.machine
        checks = {name for each in machine.checks for name in (each.id, each.base)}
        quantities = {name for each in machine.quantities for name in (each.id, each.base)}
        components = {name for each in machine.components for name in (each.id, each.base)}
        return frozenset(checks | quantities | components | {each.id for each in machine.cautions})
