"""Packets: which sheets and tables make which paper. No files, no fonts, no page breaks found."""
