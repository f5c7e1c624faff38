"""What is typed: one file a command, each with `add_arguments(parser)` and `run(said, say)`; `cli.py` has the table.

Words of the command line come in; lines or JSON and an exit status go out. What concerns a piece in hand is in
`pieces/`; what has to do with a device is beside the device, in `hands_free/`.
"""
