"""Pictures and printed pages made from results."""
