"""People, rooms, settings, and what every slice shares."""
