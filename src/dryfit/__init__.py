"""dryfit: the dry build in numbers, from the sizes measured on the bench."""

__version__ = "0.1.0"
