"""The timing diagram: nets and words over rows."""
