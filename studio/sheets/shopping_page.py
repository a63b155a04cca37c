"""A shopping list as a page to print."""
