"""The command line: parse, call one action, print with one printer."""
