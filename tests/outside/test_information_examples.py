"""Worked examples of information and diagnosis, given to our own functions as small machines.

Each possible world of an example is one hypothesis of a machine, each question one check whose rows
say what every world shows. "worked out" marks figures that are not printed in the source; they were
reckoned apart from this program by going through all worlds.
"""

from itertools import product
from math import log, log2

import numpy as np
import pytest
from oracles import Answer, evidence_list

from graph.arrays import entropy
from graph.belief import posterior
from graph.compile import Compiled, assemble
from graph.gain import gains
from graph.plan import make_plan
from graph.prior import Prior

NEGLIGIBLE = 1e-30  # of all weights: two worlds at once then weigh nothing


class Example:
    """Possible worlds with their weights, and questions: a table `rows[world, outcome]` each.

    `groups` are what the questions are about, where that is less than which world it is.
    """

    def __init__(self, weights, questions, groups=None):
        worlds = len(weights)
        groups = list(range(worlds)) if groups is None else groups
        self.names = list(questions)
        checks = [self._check(np.asarray(rows, dtype=float)) for rows in questions.values()]
        weights = np.asarray(weights, dtype=float) * NEGLIGIBLE / np.sum(weights)
        self.tables = assemble(
            checks,
            Prior(weights, NEGLIGIBLE**2, NEGLIGIBLE**2, 0.0),
            outcomes=[len(check.rows[0]) for check in checks],
            usual=[-1] * len(checks),
            slips=[np.nan] * len(checks),
            mixes=[1.0] * len(checks),
            remedy=groups,
            component=groups,
            remedies=max(groups) + 1,
            components=max(groups) + 1,
        )

    @staticmethod
    def _check(rows):
        kinds = list(dict.fromkeys(tuple(row) for row in rows))
        member = {world: 1 + kinds.index(tuple(row)) for world, row in enumerate(rows)}
        uniform = (1.0 / rows.shape[1],) * rows.shape[1]
        return Compiled((uniform, *kinds), (False,) * (1 + len(kinds)), member, ())

    def after(self, **answers):
        """Return the posterior when the questions named got the outcomes numbered."""
        told = []
        for name, outcome in answers.items():
            check = self.names.index(name)
            told.append(Answer(check, tuple(np.eye(int(self.tables.outcomes[check]))[outcome])))
        return posterior(self.tables, evidence_list(self.tables, told))

    def bits(self, **answers):
        """Return by question the gain about the world and the gain about its group."""
        plan = make_plan(self.tables, range(len(self.names)), [0.0] * len(self.names))
        found = gains(self.tables, plan, self.after(**answers))
        return dict(zip(self.names, zip(found.fault_bits, found.remedy_bits, strict=True), strict=True))


def sure(column):
    """Return the rows of a question whose outcome each world fixes, outcomes in order of appearance."""
    kinds = list(dict.fromkeys(column))
    return np.eye(len(kinds))[[kinds.index(value) for value in column]]


# -- entropy -------------------------------------------------------------------------------------

# Letters and the space in English text: MacKay, Information Theory, Inference, and Learning Algorithms
# (2003), figure 2.1 (from memory).
ENGLISH = (
    0.0575, 0.0128, 0.0263, 0.0285, 0.0913, 0.0173, 0.0133, 0.0313, 0.0599, 0.0006, 0.0084, 0.0335, 0.0235, 0.0596,
    0.0689, 0.0192, 0.0008, 0.0508, 0.0567, 0.0706, 0.0334, 0.0069, 0.0119, 0.0073, 0.0164, 0.0007, 0.1928,
)  # fmt: skip


@pytest.mark.parametrize(
    ("row", "bits", "tolerance"),
    [
        ((9 / 14, 5 / 14), 0.940, 1e-3),  # Quinlan 1986 / Mitchell 1997, chapter 3
        ((0.5, 0.25, 0.125, 0.125), 1.75, 1e-9),  # Cover and Thomas 2006, example 2.1.1
        ((1 / 2, 1 / 4, 1 / 8, 1 / 16, *(1 / 64,) * 4), 2.0, 1e-9),  # the same, section 2.1: horse race
        ((0.25, 0.25, 0.2, 0.15, 0.15), 2.2855, 1e-4),  # the same, example 5.6.1; worked out
        ((0.9, 0.1), 0.469, 1e-4),  # worked out
        (ENGLISH, 4.11, 0.01),  # MacKay 2003, chapter 5 (from memory)
    ],
)
def test_entropy_of_published_distributions(row, bits, tolerance):
    assert float(entropy(np.array(row))) == pytest.approx(bits, abs=tolerance)


# -- decision-tree induction ----------------------------------------------------------------------

# Outlook, temperature, humidity, wind; play: Quinlan (1986), Induction of decision trees, Machine
# Learning 1, table 1; Mitchell (1997), Machine Learning, table 3.2.
DAYS = (
    "S H H W N", "S H H S N", "O H H W Y", "R M H W Y", "R C N W Y", "R C N S N", "O C N S Y",
    "S M H W N", "S C N W Y", "R M N W Y", "S M N S Y", "O M H S Y", "O H N W Y", "R M H S N",
)  # fmt: skip
COLUMNS = list(zip(*(day.split() for day in DAYS), strict=True))
ATTRIBUTES = ("outlook", "temperature", "humidity", "wind")
TENNIS = Example(
    [1.0] * 14,
    {name: sure(column) for name, column in zip(ATTRIBUTES, COLUMNS, strict=False)},
    groups=[int(play == "Y") for play in COLUMNS[4]],
)
SUNNY, RAIN = 0, 2  # outcomes of the outlook in order of appearance; 1 is overcast


def test_gains_of_the_tennis_data():
    """Printed .246 .029 .151 .048 (Mitchell 1997, section 3.4.2), the first and third cut off, not rounded."""
    about_play = [bits for _, bits in TENNIS.bits().values()]

    assert about_play == pytest.approx([0.24675, 0.02922, 0.15184, 0.04813], abs=1e-5)
    assert about_play == pytest.approx([0.246, 0.029, 0.151, 0.048], abs=1e-3)


@pytest.mark.parametrize(
    ("outlook", "bits"),
    [
        (SUNNY, {"humidity": 0.971, "temperature": 0.571, "wind": 0.020}),  # Mitchell 1997, figure 3.4
        (RAIN, {"wind": 0.971}),  # worked out; the published tree splits this branch on wind
    ],
)
def test_gains_in_the_branches_of_the_tennis_tree(outlook, bits):
    found = TENNIS.bits(outlook=outlook)

    assert {name: found[name][1] for name in bits} == pytest.approx(bits, abs=1e-3)


def test_split_information_and_gain_ratio_of_the_outlook():
    """1.577 and .156: Quinlan (1993), C4.5 (from memory). The gain about the day is the split information."""
    about_day, about_play = TENNIS.bits()["outlook"]

    assert about_day == pytest.approx(1.577, abs=1e-3)
    assert about_play / about_day == pytest.approx(0.156, abs=1e-3)


def test_gains_of_the_restaurant_data():
    """Gain(Patrons) = .541, Gain(Type) = 0.

    Russell and Norvig, Artificial Intelligence: A Modern Approach, 3rd ed., section 18.3.4 (from memory):
    of twelve, 2 find none (0 wait), 4 some (4 wait), 6 a full house (2 wait); half of each type wait.
    """
    patrons = "NNSSSSFFFFFF"
    waits = "001111110000"
    example = Example([1.0] * 12, {"patrons": sure(patrons)}, groups=[int(w) for w in waits])
    even = Example([1.0] * 12, {"type": sure("FFIITTTTBBBB")}, groups=[int(w) for w in "010101010101"])

    assert example.bits()["patrons"][1] == pytest.approx(0.541, abs=1e-3)
    assert even.bits()["type"][1] == pytest.approx(0.0, abs=1e-9)


# -- guessing games of MacKay (2003), chapter 4 ----------------------------------------------------

BALLS = [(ball, sign) for ball in range(12) for sign in (1, -1)]  # the odd one, heavy or light
LEFT, LEVEL = 0, 1  # outcomes of a weighing; 2 is the right side going down


def weighing(left, right):
    """Return what the scales show for each of the 24 possibilities."""
    lean = [sign * ((ball in left) - (ball in right)) for ball, sign in BALLS]
    return np.eye(3)[[1 - value for value in lean]]


def first_weighing(count):
    return weighing(range(count), range(count, 2 * count))


@pytest.mark.parametrize(
    ("count", "bits"), [(1, 0.817), (2, 1.252), (3, 1.5), (4, 1.585), (5, 1.483), (6, 1.0)]
)
def test_information_of_the_first_weighing(count, bits):
    """The question of MacKay 2003, exercise 4.1; figures worked out. Four against four is best: log2 3."""
    example = Example([1.0] * 24, {"weigh": first_weighing(count)})

    assert example.bits()["weigh"][0] == pytest.approx(bits, abs=1e-3)


def test_the_published_weighings_find_the_odd_ball():
    """MacKay 2003, section 4.1: first 8/8/8, then 3/3/2 whichever way the scales go."""
    example = Example(
        [1.0] * 24,
        {
            "first": weighing((0, 1, 2, 3), (4, 5, 6, 7)),
            "tilted": weighing((0, 1, 5), (2, 3, 4)),
            "level": weighing((8, 9, 10), (0, 1, 2)),
        },
    )

    assert example.bits()["first"][0] == pytest.approx(log2(3))
    split = float(entropy(np.array([3, 3, 2]) / 8))
    assert example.bits(first=LEFT)["tilted"][0] == pytest.approx(split)
    assert example.bits(first=LEVEL)["level"][0] == pytest.approx(split)


def test_six_questions_find_one_of_sixty_four_squares():
    """MacKay 2003, exercise 4.3: each question of the game sixty-three is worth one bit."""
    digits = {f"digit{d}": np.eye(2)[[(n >> d) & 1 for n in range(64)]] for d in range(6)}
    example = Example([1.0] * 64, digits)
    answers = dict.fromkeys(digits, 1)

    assert [bits for bits, _ in example.bits().values()] == pytest.approx([1.0] * 6)
    assert -example.after(**answers).log_evidence / log(2) == pytest.approx(6.0)
    assert example.after(**answers).marginals[63] == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("misses", "last", "total"),
    [(1, 0.0227, 0.0227), (2, 0.0230, 0.0458), (32, 0.0443, 1.0), (48, 0.0874, 2.0)],
)
def test_information_of_missing_the_submarine(misses, last, total):
    """MacKay 2003, section 4.1, figure 4.3: content of the n-th miss, and of all so far."""
    shots = {f"shot{n}": np.eye(2)[[int(n == square) for square in range(64)]] for n in range(misses)}
    example = Example([1.0] * 64, shots)
    missed = dict.fromkeys(shots, 0)

    so_far = -example.after(**missed).log_evidence / log(2)
    before = -example.after(**dict(list(missed.items())[:-1])).log_evidence / log(2)

    assert so_far == pytest.approx(total, abs=1e-4)
    assert so_far - before == pytest.approx(last, abs=1e-4)


def test_information_of_hitting_the_submarine_at_the_forty_ninth_shot():
    """MacKay 2003, section 4.1, figure 4.3: 4.0 bits, 6.0 in all."""
    shots = {f"shot{n}": np.eye(2)[[int(n == square) for square in range(64)]] for n in range(49)}
    example = Example([1.0] * 64, shots)
    answers = dict.fromkeys(shots, 0) | {"shot48": 1}

    so_far = -example.after(**answers).log_evidence / log(2)
    before = -example.after(**dict.fromkeys(list(shots)[:48], 0)).log_evidence / log(2)

    assert so_far == pytest.approx(6.0)
    assert so_far - before == pytest.approx(4.0)


# -- diagnosis -------------------------------------------------------------------------------------


def test_a_positive_screening_test_means_less_than_it_seems():
    """Prevalence 1 %, sensitivity 80 %, false alarms 9.6 %: the answer is 7.8 %.

    Eddy, D. M. (1982), in Kahneman, Slovic and Tversky, Judgment under Uncertainty, chapter 18; Gigerenzer
    and Hoffrage (1995), Psychological Review 102, 684-704 (from memory).
    """
    example = Example([0.01, 0.99], {"test": [[0.8, 0.2], [0.096, 0.904]]})

    assert example.after(test=0).marginals[0] == pytest.approx(0.078, abs=5e-4)


# Asia: Lauritzen and Spiegelhalter (1988), Local computations with probabilities on graphical structures,
# JRSS B 50, 157-224. Worlds are states of asia, smoking, tuberculosis, lung cancer, bronchitis.
STATES = list(product((1, 0), repeat=5))


def asia_weight(asia, smokes, tuberculosis, cancer, bronchitis):
    parts = (
        (asia, 0.01),
        (smokes, 0.5),
        (tuberculosis, 0.05 if asia else 0.01),
        (cancer, 0.10 if smokes else 0.01),
        (bronchitis, 0.60 if smokes else 0.30),
    )
    return float(np.prod([p if present else 1.0 - p for present, p in parts]))


DYSPNOEA = {(1, 1): 0.9, (1, 0): 0.7, (0, 1): 0.8, (0, 0): 0.1}  # by "t or l", then bronchitis
XRAY = {1: 0.98, 0: 0.05}
ASIA = Example(
    [asia_weight(*state) for state in STATES],
    {
        "a": np.eye(2)[[1 - a for a, *_ in STATES]],
        "s": np.eye(2)[[1 - s for _, s, *_ in STATES]],
        "x": [(XRAY[t | c], 1 - XRAY[t | c]) for _, _, t, c, _ in STATES],
        "d": [(DYSPNOEA[t | c, b], 1 - DYSPNOEA[t | c, b]) for _, _, t, c, b in STATES],
    },
)


@pytest.mark.parametrize(
    ("seen", "tuberculosis", "cancer", "bronchitis", "evidence"),
    [
        ({}, 0.0104, 0.055, 0.45, 1.0),
        ({"a": 0}, 0.05, 0.055, 0.45, 0.01),
        ({"s": 0}, 0.0104, 0.1, 0.6, 0.5),
        ({"d": 0}, 0.018845, 0.102759, 0.833967, 0.435971),
        ({"a": 0, "d": 0}, 0.087751, 0.099525, 0.811402, 0.00450138),
        ({"a": 0, "d": 0, "x": 0}, 0.391712, 0.444271, 0.628822, 9.88227e-4),
        ({"a": 0, "d": 0, "x": 1}, 0.002249, 0.00255, 0.862761, 0.00351315),
        ({"a": 0, "d": 0, "x": 0, "s": 1}, 0.632329, 0.126466, 0.45896, 2.94467e-4),
    ],
)
def test_the_chest_clinic(seen, tuberculosis, cancer, bronchitis, evidence):
    """Structure and tables of Lauritzen and Spiegelhalter 1988; posteriors worked out over all states."""
    now = ASIA.after(**seen)

    found = [sum(p for p, state in zip(now.singles, STATES, strict=True) if state[i]) for i in (2, 3, 4)]

    assert found == pytest.approx([tuberculosis, cancer, bronchitis], abs=1e-5)
    assert np.exp(now.log_evidence) == pytest.approx(evidence, rel=1e-5)


# Polybox: de Kleer and Williams (1987), Diagnosing multiple faults, Artificial Intelligence 32, 97-130.
# X = A C, Y = B D, Z = C E with A 3, B 2, C 2, D 3, E 3; F = X + Y, G = Y + Z; seen: F 10, G 12.
PARTS = ("M1", "M2", "M3", "A1", "A2")
CANDIDATES = list(product((False, True), repeat=5))  # which parts are broken
SUMS = {"A1": ("X", "Y", 10), "A2": ("Y", "Z", 12)}


def derived(broken):
    """Return what the sound parts say about X, Y and Z, or None if they contradict each other."""
    sound = {part for part, gone in zip(PARTS, broken, strict=True) if not gone}
    known = {point: 6 for part, point in (("M1", "X"), ("M2", "Y"), ("M3", "Z")) if part in sound}
    for _ in range(2):
        for adder, (first, second, total) in SUMS.items():
            for one, other in ((first, second), (second, first)):
                if (
                    adder in sound
                    and one in known
                    and known.setdefault(other, total - known[one]) != total - known[one]
                ):
                    return None
    return known


def polybox():
    said = [derived(broken) for broken in CANDIDATES]
    probes = {
        point: sure([None if known is None else known.get(point) for known in said])
        for point in ("X", "Y", "Z")
    }
    consistent = np.eye(2)[[int(known is None) for known in said]]
    weights = [float(np.prod([0.01 if gone else 0.99 for gone in broken])) for broken in CANDIDATES]
    return Example(weights, {"seen": consistent, **probes}), said


def test_the_polybox_candidates():
    """27 of 32 candidates are consistent; the only single faults are M1 and A1 (worked out)."""
    _, said = polybox()
    left = [broken for broken, known in zip(CANDIDATES, said, strict=True) if known is not None]

    assert len(left) == 27
    assert {broken.index(True) for broken in left if sum(broken) == 1} == {
        PARTS.index("M1"),
        PARTS.index("A1"),
    }


def test_the_polybox_beliefs():
    """Priors of 1 %, weighed by consistency; figures worked out over all 32 candidates."""
    example, _ = polybox()
    now = example.after(seen=0).singles

    broken = [sum(p for p, gone in zip(now, CANDIDATES, strict=True) if gone[i]) for i in range(5)]

    assert broken == pytest.approx([0.497635, 0.019609, 0.014780, 0.497635, 0.014780], abs=1e-5)
    assert float(now[CANDIDATES.index((True, False, False, False, False))]) == pytest.approx(
        0.478026, abs=1e-5
    )


def test_the_polybox_is_best_probed_at_x_then_y_then_z():
    """The published order (de Kleer and Williams 1987, section 4); bits worked out.

    The paper spreads what a candidate does not predict over the values, so only its order is comparable.
    """
    example, _ = polybox()
    found = example.bits(seen=0)

    assert [found[point][0] for point in ("X", "Y", "Z")] == pytest.approx([1.0408, 0.0815, 0.0474], abs=1e-4)
