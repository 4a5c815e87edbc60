"""Floor 11, the web page: one file that holds several choices of a reader's, and the script that serves them."""
