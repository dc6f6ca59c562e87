"""Benchmarks: speed as a ratio to a floor measured in the same run. `python -m tests.bench` prints all."""
