"""What is known of coins: grades, metals, types and how to tell them apart. No I/O but its own data."""
