"""Names of what a sweep writes; apart from its code, so that they are known without loading it."""

from __future__ import annotations

TABLE, RECORD, KEPT = "firings.csv", "batch.json", "firings"
