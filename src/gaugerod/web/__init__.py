"""Pages in a browser: every one is made on the server and works without a script."""
