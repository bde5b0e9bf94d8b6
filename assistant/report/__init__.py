"""What a session leaves behind: report, ticket note, handover brief, work sheet.

The record is all that travels: everything here is computed from a record file and the pack it names.
"""
