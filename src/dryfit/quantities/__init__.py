"""Sizes and other quantities as typed at the bench, bands, and findings."""
