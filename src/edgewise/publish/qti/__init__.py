"""QTI: questions as items of 1EdTech's Question and Test Interoperability, and back."""
