"""What the preview's server is made of: who is answered, on which connections, by which build."""
