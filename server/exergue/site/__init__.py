"""Flask: desk pages, phone API, public label page. Thin: no rule lives here."""
