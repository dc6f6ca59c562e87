"""Mixing arithmetic: what every mixture holds, at any size asked for. Pure and exact; no file, no clock."""
