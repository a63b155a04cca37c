"""The demo studio: an invented painter's tables and the script that builds them."""
