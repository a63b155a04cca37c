"""Measurement files as values: pure functions from bytes to samples."""
