"""From sizes with their doubt to what a check reads: the one forward model.

Reading order: `luck` draws, `sizes` true sizes from typed ones, `spots` where the places of a part
lie, `network` what pushes on what along a line, `rigid` how far each part can go, `predict` what a
check reads. All lengths here are metres; arrays have shape (n,), one value a draw.
"""
