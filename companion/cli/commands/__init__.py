"""What each command takes and does, a file for each family: `declare_NAME` and `run_NAME`, as the table names them."""
