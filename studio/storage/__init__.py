"""The only home of SQL: tables, engine, unit of work, one repository a noun, migration."""
