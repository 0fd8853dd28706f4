"""The unit's record: SQL and nothing else."""
