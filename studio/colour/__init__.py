"""Colour science in plain values: no files, clock, database or terminal."""
