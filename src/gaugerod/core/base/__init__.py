"""What every stage shares: lengths, messages, errors, plane geometry."""
