"""Parts as bodies in space: stepped cells about an axis, laid along a line."""
