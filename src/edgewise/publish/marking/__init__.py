"""What is made of the marks of a class: the table, a sheet for each learner, a report."""
