"""Statistics of scores: ordinal models, published fits and the answer with its doubt."""
