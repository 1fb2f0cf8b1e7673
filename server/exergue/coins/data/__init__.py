"""What is known of coins, as data: TOML files that ship with the package."""
