/**
 * What every part needs to speak SQL: instants and ids in and out of rows, lists by sort key, the guards of a row that
 * people edit. How it is asked as of a moment (AsOf). It knows nothing of the domain.
 */
@ApplicationModule(type = ApplicationModule.Type.OPEN)
@NullMarked
package panelbook.app.database;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
