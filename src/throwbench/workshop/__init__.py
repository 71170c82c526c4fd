"""The maker's records: Django slices over one database, each calling the pure core.

Slices only know those below them: line > panel > trials > shelf > house. In each, `services` are
the only writers, `selectors` the only readers, `views` stay thin.
"""
