"""How a solve ended: a few named outcomes, each a sentence with advice.

Physical outcomes (smothered, dry, never drew) are told from the results elsewhere, with the same
record.
"""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Outcome:
    """How a firing ended.

    `key` is for programs, `sentence` and `advice` for people, `detail` says where and when.
    `complete` is False if results stop before they were meant to.
    """

    key: str
    sentence: str
    advice: str
    complete: bool = True
    detail: str = ""

    def told(self, detail: str) -> Outcome:
        """The same outcome with its particulars.

        >>> INTERRUPTED.told("at 12.0 s").words
        'The run was interrupted: at 12.0 s. The results up to then are kept.'
        """
        return replace(self, detail=detail)

    @property
    def words(self) -> str:
        """Sentence, particulars and advice in one line."""
        middle = f": {self.detail}." if self.detail else "."
        return f"{self.sentence}{middle} {self.advice}".strip()


FINISHED = Outcome("finished", "The firing ran to its end", "")
STOPPED_BY_RULE = Outcome("stopped_by_rule", "The firing was stopped by its own instructions", "")
RULE_UNDOES_ITSELF = Outcome(
    "rule_undoes_itself",
    "A rule of the firing undoes itself and acts over and over without time passing",
    "Leave a gap between the value at which it acts and the value to which its act leads.",
    complete=False,
)
SOLVER_FAILED = Outcome(
    "solver_failed",
    "The equations could not be solved further",
    "The results up to then are kept. Look at the part named for a dimension far out of the "
    "ordinary; if there is none, this is a fault of the program worth reporting.",
    complete=False,
)
IMPLAUSIBLE_STATE = Outcome(
    "implausible_state",
    "The run reached a state that cannot exist",
    "The results up to then are kept. Look at the part named for a dimension or an act of the "
    "firing far out of the ordinary.",
    complete=False,
)
INTERRUPTED = Outcome(
    "interrupted", "The run was interrupted", "The results up to then are kept.", complete=False
)
