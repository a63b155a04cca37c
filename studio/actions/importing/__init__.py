"""Import of CSV tables: one file a kind of table, one that reads rows, one that runs them all."""
