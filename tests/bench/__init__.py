"""Benchmarks: not part of a test run; see DEVELOPERS.md."""
