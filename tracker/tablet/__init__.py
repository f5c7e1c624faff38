"""A page for a tablet by the chair: the live View comes in, one page in a browser follows it.

It is served by this very process, to this machine alone unless that was asked otherwise, and to whoever has
the link.
"""
