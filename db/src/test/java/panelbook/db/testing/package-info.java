/**
 * Real PostgreSQL for tests: one engine for a test run, a database of its own for each test class, with all migrations
 * or with none. It ends at the connection; what is in the database is up to the test.
 */
@NullMarked
package panelbook.db.testing;

import org.jspecify.annotations.NullMarked;
