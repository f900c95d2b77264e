"""What a figure shows, in words, and which nets and rows it shows."""
