"""Sealing: an edition as containers that a passphrase opens. Bytes in, bytes out.

Randomness comes in from the edge as a function, so that tests can repeat it. What is sealed and how it is
laid out is `render.sealed`; the reader's half in the browser is the theme's `opening.js`.
"""
