"""What a session leaves behind: report, ticket note, handover brief, work sheet.

The record is all that travels: everything here is computed from a record file and the pack it names.
"""

import assistant.engine  # noqa: F401 -- the engine before its wording, which needs parts of it
