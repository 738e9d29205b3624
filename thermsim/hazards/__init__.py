"""What could hurt: each check with what was found, the limit, the margin and the source.

    evidence (plant, and what a firing showed) -> checks, a file a subject -> page -> words, records

Nothing here solves anything: it reads a scenario and, if there is one, the tables of a firing, new
or saved. A verdict is one of four, and none of them says that nothing can happen.
"""

from __future__ import annotations

from thermsim.hazards.check import Check
from thermsim.hazards.evidence import Evidence
from thermsim.hazards.page import checks_of
from thermsim.hazards.written import record_of

__all__ = ["Check", "Evidence", "checks_of", "record_of"]
