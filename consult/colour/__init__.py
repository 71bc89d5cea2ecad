"""Colour: pigment and dye in the fibre -> reflectance -> what the eye sees, with its spread.

`consult.colour.values` holds the plain inputs and results and needs no numpy; every other module here
does, so import them where a colour is computed and not at start-up.
"""
