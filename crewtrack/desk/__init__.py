"""The desk: the program's windows, and the only place that knows Qt."""
