"""The sample record of the records' own tests."""

from tests.records.conftest import made_once, sample

__all__ = ["made_once", "sample"]
