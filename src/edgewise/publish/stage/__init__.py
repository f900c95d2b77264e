"""The stage of a page: what a learner steps through, tries and predicts."""
