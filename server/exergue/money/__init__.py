"""Exact money: cents, allocation, cost codes. Pure."""
