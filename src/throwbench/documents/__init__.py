"""Results in, bytes out: the report (PDF), the picture (PNG) and the table (CSV).

One chart definition serves the screen, the picture and the paper. For the bench: the pour sheet
with its gauge card, the burn sheet, slips and tags.
"""
