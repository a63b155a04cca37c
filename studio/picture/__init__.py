"""Pictures as arrays: decoding, charts, swatch areas and corrections; no file is opened here."""
