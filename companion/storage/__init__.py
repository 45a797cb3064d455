"""Design files, the database and its migrations, folders."""
