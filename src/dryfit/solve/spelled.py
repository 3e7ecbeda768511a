"""A length as a finding spells it."""

from dryfit.model.rebuild import Rebuild

INCH = 0.0254


def spelled(length: float, rebuild: Rebuild, *, fine: bool = False) -> str:
    """Spell a length in what the rebuild is measured in.

    Parameters
    ----------
    length
        The length [m]
    rebuild
        The unit [rebuild]
    fine
        Whether to a thousandth of a millimetre, or a hundredth of a thou, as fits want it [-]

    Returns
    -------
    text
        With its unit [text]

    Valid
    -----
    Any length.

    Source
    ------
    1 in = 25.4 mm exactly: NIST SP 811, Appendix B, from memory.

    Examples
    --------
    >>> spelled(0.35e-3, Rebuild("mm")), spelled(0.0254, Rebuild("inch"))
    ('0.35 mm', '1.0000 in')
    >>> spelled(28.8e-6, Rebuild("mm"), fine=True)
    '0.029 mm'
    """
    more = 1 if fine else 0
    if rebuild.system == "mm":
        return f"{length * 1e3:.{2 + more}f} mm"
    return f"{length / INCH:.{4 + more}f} in"
