/** What every part needs to speak SQL: instants and ids in and out of rows. It knows nothing of the domain. */
@NullMarked
package panelbook.app.database;

import org.jspecify.annotations.NullMarked;
