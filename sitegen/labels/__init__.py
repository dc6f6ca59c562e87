"""Labels: what a mixture's label must say, derived from the cards of its substances by the GHS/CLP rules.

Pure: texts and figures in, a `Label` out. One module a family of rules; `mixture.classify` runs them all.
Nothing here is a supplier's classification, and nothing is guessed: where a figure is missing the answer is
"not enough data", kept apart from "not classified".
"""
