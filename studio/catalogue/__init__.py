"""The studio's things as frozen values, and the rules that hold for them."""
