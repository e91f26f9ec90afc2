// Pages work without this. Where it runs, it asks for the page again when the service says that something changed.
