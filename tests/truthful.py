"""A machine with known faults, asked by the engine's policy and answered with what its faults make likeliest."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from graph.candidates import still_open, within_reach
from graph.measure import row_of

ROLE = "technician"
MOST_QUESTIONS = 60
CHANNELS = {"W": "water", "G": "gas_supply", "R": "gas_regulated", "S": "syrup1", "B": "barrel1"}
GIVEN_UP = ("unknown_leads", "nothing_wrong")


def fault_at(machine, ref):
    """Return the position of a fault by ref: the instance of the channel behind a dot, else the first one."""
    base, _, channel = ref.partition(".")
    return next(
        index
        for index, fault in enumerate(machine.faults)
        if fault.ref == base and (not channel or fault.id.endswith(f"@{CHANNELS[channel]}"))
    )


def clearest_symptom(case, faults):
    """Return the symptom that the faults make likeliest; empty where they raise none."""
    shares = {
        check.id: float(row_of(case, index, faults)[0])
        for index, check in enumerate(case.machine.checks)
        if check.kind == "symptom" and float(row_of(case, index, faults)[0]) > check.otherwise[0]
    }
    return max(shares, key=shares.__getitem__) if shares else ""


@dataclass(frozen=True)
class Job:
    """Faults that are left, what was found, what is settled, which remedies were done."""

    case: object
    left: frozenset
    findings: tuple = ()
    settled: tuple = ()
    done: tuple = ()

    def told(self, symptom):
        """Return the job after a complaint; none where it is empty."""
        return self.knows(symptom, "present") if symptom else self

    def knows(self, check, outcome):
        finding = replace(self.case.answer(check, outcome, ROLE), cured=self.done)
        return replace(self, findings=(*self.findings, finding), settled=(*self.settled, (check, outcome)))

    def likeliest(self, check):
        """Return what the faults that are left make the likeliest outcome of a check."""
        row = row_of(self.case, self.case.position(check), tuple(sorted(self.left)))
        return self.case.check(check).outcomes[int(np.argmax(row))].id

    def advised(self):
        """Return the first remedy that the policy advises, empty for none, and the job at that moment."""
        job, reach = self, within_reach(self.case.machine, ROLE)
        for _ in range(MOST_QUESTIONS):
            advice, ranked = self.case.decide(
                job.findings,
                still_open(reach, dict(job.settled)),
                role=ROLE,
                cured=job.done,
                costs=dict.fromkeys(job.done, float("inf")),
            )
            if advice.act:
                return ("" if advice.reason in GIVEN_UP else advice.remedy), job
            job = job.knows(ranked[0].check, job.likeliest(ranked[0].check))
        return "", job

    def repaired(self, remedy):
        """Return the job after a remedy; what it may have changed can be asked again."""
        left = frozenset(f for f in self.left if self.case.machine.faults[f].remedy != remedy)
        helped = self.case.helped(remedy, not left, ROLE)
        kept = tuple((check, outcome) for check, outcome in self.settled if not self._unusual(check, outcome))
        return replace(
            self, left=left, findings=(*self.findings, helped), settled=kept, done=(*self.done, remedy)
        )

    def _unusual(self, check, outcome):
        element = self.case.check(check)
        return (
            element.kind == "check" and element.usual >= 0 and element.outcomes[element.usual].id != outcome
        )
