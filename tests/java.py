"""How the checkers that run in Java are started."""

BRIEFLY = ("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss4m")
"""For runs of seconds: the thorough compiler and a collector with threads take longer than they save.

What the quick compiler makes needs more stack than the HTML checker's schema gets by default.
"""
