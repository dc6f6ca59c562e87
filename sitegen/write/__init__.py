"""Writing: pages to files, all or nothing."""

from sitegen.write.build import WriteError, write_edition

__all__ = ["WriteError", "write_edition"]
