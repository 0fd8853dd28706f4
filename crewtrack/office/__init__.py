"""The unit's work: one act is one function, one transaction, one returned Changes."""
