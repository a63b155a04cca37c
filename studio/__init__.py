"""The swatch, mix and paint memory of a watercolour painter."""

__version__ = "0.7.0"
