"""Drawing: shapes, letters and colours, and the SVG, PNG and PDF made of them."""
