"""The demo's workshop in a database, through the services that a maker's own presses call.

`whole.build` makes it; it can be imported once Django is set up on a folder.
"""
