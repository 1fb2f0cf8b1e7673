"""Reports as tables, and their two prints: CSV and PDF. Pure: plain figures in, text or bytes out."""
