"""Paintings: begun, planned, tested passage by passage, finished, taught."""
