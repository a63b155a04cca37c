"""Paint optics: films and layers, characterised paints, formulated recipes."""
