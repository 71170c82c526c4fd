"""The web app's frame: settings, root addresses, static files, middleware, server."""
