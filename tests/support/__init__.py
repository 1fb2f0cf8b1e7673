"""What several tests share: the running desk, the browser, waiting for a thing to become so."""
