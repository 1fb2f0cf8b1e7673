"""The close of a show. Pure."""
