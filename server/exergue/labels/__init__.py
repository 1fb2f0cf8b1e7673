"""What is printed: identity numbers, QR symbols, label formats and their pages."""
