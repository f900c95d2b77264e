"""Publishers: from a checked lesson to what a learner gets."""
