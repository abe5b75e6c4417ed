"""What came back: reads a report in any form, also after a person edited it, and tells what changed by meaning."""
