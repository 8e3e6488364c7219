"""Cards and large pages on the paper of an office printer."""
