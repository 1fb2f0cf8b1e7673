from desk.cast import ada, buy, charlie, phone  # noqa: F401 - fixtures
