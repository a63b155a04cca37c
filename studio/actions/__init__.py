"""One use case a file, verb first: takes an open unit of work and plain values."""
