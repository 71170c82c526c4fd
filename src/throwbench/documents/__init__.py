"""Results in, bytes out: the report (PDF), the picture (PNG) and the table (CSV).

One chart definition serves the screen, the picture and the paper.
"""
