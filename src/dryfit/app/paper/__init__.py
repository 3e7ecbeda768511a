"""The book and the sheets on paper: what stands on each sheet, and the press that sets it."""
